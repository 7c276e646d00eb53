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

/** The GTINs by which a scan knows the product; receiving adds them by itself. */
export function GtinSection({ productId }: { readonly productId: string }) {
  const gtins = useQuery(productQueries.gtins(productId))
  const mayEdit = useMay()('manageCatalogue', null)
  const remove = useAction(ROUTES.removeProductGtin, { topics: ['products'] })
  return (
    <>
      <Answered query={gtins} what="GTINs">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No GTIN yet.">The first delivery that is scanned adds it.</Empty>
          ) : (
            <Table
              caption="GTINs of the product"
              rows={items}
              rowKey={({ gtin }) => gtin}
              columns={[
                { head: 'GTIN', cell: ({ gtin }) => gtin },
                { head: 'Cartridges a scan', number: true, cell: ({ cartridges }) => cartridges },
                { head: 'Added by', cell: ({ recordedBy }) => recordedBy },
                ...(mayEdit
                  ? [
                      {
                        head: 'Change',
                        cell: ({ gtin }: { gtin: string }) => (
                          <Button
                            size="xs"
                            variant="default"
                            aria-label={`Remove ${gtin}`}
                            onClick={() => remove.mutate({ params: { productId, gtin } })}
                          >
                            Remove
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
          label="GTIN"
          required
          inputMode="numeric"
          value={gtin}
          onChange={(event) => setGtin(event.currentTarget.value)}
        />
        <NumberInput
          label="Cartridges a scan"
          min={1}
          max={500}
          w={150}
          value={cartridges}
          onChange={setCartridges}
        />
        <Button type="submit" variant="default" loading={add.isPending}>
          Add
        </Button>
      </Group>
      <ProblemPanel error={add.error} />
    </form>
  )
}
