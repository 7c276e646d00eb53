import { ROUTES } from '../../api/contracts.ts'
import { Button, Group, NumberInput, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState, type SubmitEvent } from 'react'
import { productQueries } from '../../api/queries/products.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { t } from '../../lib/reader.ts'

/** The GTINs by which a scan knows the product; receiving adds them by itself. */
export function GtinSection({ productId }: { readonly productId: string }) {
  const gtins = useQuery(productQueries.gtins(productId))
  const mayEdit = useMay()('manageCatalogue', null)
  const remove = useAction(ROUTES.removeProductGtin, { topics: ['products'] })
  return (
    <>
      <Answered query={gtins} what={t('products.gtins')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('products.noGtinYet')}>{t('products.theFirstDeliveryThatIsScannedAddsIt')}</Empty>
          ) : (
            <Table
              caption={t('products.gtinsOfTheProduct')}
              rows={items}
              rowKey={({ gtin }) => gtin}
              columns={[
                { head: 'products.gtin', cell: ({ gtin }) => gtin },
                { head: 'products.cartridgesAScan', number: true, cell: ({ cartridges }) => cartridges },
                { head: 'products.addedBy', cell: ({ recordedBy }) => recordedBy },
                ...(mayEdit
                  ? [
                      {
                        head: 'products.change' as const,
                        cell: ({ gtin }: { gtin: string }) => (
                          <Button
                            size="xs"
                            variant="default"
                            aria-label={t('products.remove2', { gtin })}
                            onClick={() => remove.mutate({ params: { productId, gtin } })}
                          >
                            {t('products.remove')}
                          </Button>
                        ),
                      },
                    ]
                  : []),
              ]}
            />
          )
        }
      </Answered>
      <ProblemPanel error={remove.error} />
      {mayEdit && <AddGtin productId={productId} />}
    </>
  )
}

function AddGtin({ productId }: { readonly productId: string }) {
  const [gtin, setGtin] = useState('')
  const [cartridges, setCartridges] = useState<number | string>(1)
  const add = useAction(ROUTES.addProductGtin, { topics: ['products'], onDone: () => setGtin('') })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    add.mutate({ params: { productId }, body: { gtin: gtin.trim(), cartridges: Number(cartridges) } })
  }
  return (
    <form onSubmit={submit}>
      <Group align="flex-end" mt="sm">
        <TextInput
          label={t('products.gtin')}
          required
          inputMode="numeric"
          value={gtin}
          onChange={(event) => setGtin(event.currentTarget.value)}
        />
        <NumberInput
          label={t('products.cartridgesAScan')}
          min={1}
          max={500}
          w={150}
          value={cartridges}
          onChange={setCartridges}
        />
        <Button type="submit" variant="default" loading={add.isPending}>
          {t('products.add')}
        </Button>
      </Group>
      <ProblemPanel error={add.error} />
    </form>
  )
}
