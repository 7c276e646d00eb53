import { Button, NativeSelect, Stack, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { PackagePlus } from 'lucide-react'
import { newKey } from '../../../api/client.ts'
import { shopQueries } from '../../../api/queries/shops.ts'
import type { Product, Shop } from '../../../api/types.ts'
import { notAllIn } from '../../../features/scan/scan-queue.tsx'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { DeliveryLines } from './delivery-lines.tsx'
import { emptyLine, questionsOf, withLine, withoutLine, type Line } from './delivery.ts'
import { LineFields, LineQuestions } from './line-fields.tsx'
import type { useDelivery } from './use-delivery.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly receiving: ReturnType<typeof useDelivery>
  readonly shops: readonly Shop[]
  readonly products: readonly Product[]
}

const nameOf = ({ id, name }: { readonly id: string; readonly name: string }) => ({ value: id, label: name })

export function ReceiveForm({ receiving, shops, products }: Props) {
  const { delivery, change, scans, locked, isSlow, receive } = receiving
  const { lines, currentId } = delivery
  const locations = useQuery(shopQueries.locations(delivery.shopId))
  const line = lines.find(({ id }) => id === currentId && !locked.has(id))
  const open = lines.filter(({ id }) => !locked.has(id))
  const setLine = (part: Partial<Line>) => change((old) => withLine(old, currentId, part))
  const show = (id: string) => change((old) => ({ ...old, currentId: id }))
  const another = () => {
    const added = emptyLine(newKey())
    change((old) => ({ ...old, lines: [...old.lines, added], currentId: added.id }))
  }
  const notIn = notAllIn(scans.items)
  const refusal = line?.refused?.message ?? null
  const isAsked = line !== undefined && questionsOf(line).length > 0 && !line.hasLooked
  return (
    <Sheet padded>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          receive()
        }}
      >
        <Stack gap="md">
          <NativeSelect
            label={t('stock.intoShop')}
            data={shops.map(nameOf)}
            value={delivery.shopId}
            onChange={(event) => {
              const shopId = event.currentTarget.value
              change((old) => ({ ...old, shopId, locationId: '' }))
            }}
          />
          <DeliveryLines
            delivery={delivery}
            products={products}
            locked={locked}
            isSlow={isSlow}
            onOpen={show}
            onRemove={(id) => change((old) => withoutLine(old, id, newKey()))}
          />
          {line !== undefined && <LineFields line={line} products={products} onChange={setLine} />}
          <NativeSelect
            label={t('stock.putWhere')}
            data={[{ value: '', label: t('stock.noPlaceYet') }, ...(locations.data?.items ?? []).map(nameOf)]}
            value={delivery.locationId}
            onChange={(event) => {
              const locationId = event.currentTarget.value
              change((old) => ({ ...old, locationId }))
            }}
          />
          <TextInput
            label={t('stock.deliveryNote')}
            maxLength={60}
            value={delivery.deliveryNote}
            onChange={(event) => {
              const deliveryNote = event.currentTarget.value
              change((old) => ({ ...old, deliveryNote }))
            }}
          />
          {line !== undefined && <LineQuestions line={line} onChange={setLine} />}
          {refusal !== null && <ProblemPanel error={new Error(refusal)} />}
          {notIn !== undefined && <Mark tone="warning">{notIn}</Mark>}
          <Button
            type="submit"
            size="md"
            leftSection={<PackagePlus size={18} aria-hidden />}
            loading={open.length === 0}
            disabled={isAsked || notIn !== undefined}
          >
            {open.length > 1 ? t('stock.receiveLots', { open: open.length }) : t('stock.receive')}
          </Button>
          <Button variant="default" onClick={another}>
            {t('stock.anotherLot')}
          </Button>
        </Stack>
      </form>
    </Sheet>
  )
}
