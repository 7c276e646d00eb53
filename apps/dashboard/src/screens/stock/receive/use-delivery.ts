import { ROUTES } from '../../../api/contracts.ts'
import { useQueryClient } from '@tanstack/react-query'
import { call, newKey } from '../../../api/client.ts'
import { invalidateTopics } from '../../../api/live.ts'
import { mayStillGo, Refusal, type Outgoings } from '../../../api/outbox.ts'
import { useMe } from '../../../api/use-me.ts'
import { useOutbox } from '../../../api/use-outbox.ts'
import type { Scanned } from '../../../features/scan/scan-queue.tsx'
import { keptIn, useKept } from '../../../lib/kept.ts'
import {
  emptyDelivery,
  hasSerial,
  missingIn,
  refusalOf,
  toRequest,
  withLine,
  withReceipt,
  withScan,
  type Delivery,
  type ReceiptRequest,
} from './delivery.ts'
import { t } from '../../../lib/reader.ts'

interface Sending {
  readonly lineId: string
  readonly request: ReceiptRequest
}

interface Scan extends Scanned {
  readonly shopId: string
}

/** A delivery with its scans and receipts on their way: all of it outlasts a reload, and goes in once. */
export function useDelivery(firstShopId: string) {
  const client = useQueryClient()
  const me = useMe()
  const kept = keptIn<Delivery>(`clampclock.delivery.${me.id}`, emptyDelivery(firstShopId))
  const receipts = useOutbox<Sending>('receipts', async ({ id, payload: { lineId, request } }, signal) => {
    try {
      const receipt = await call(ROUTES.receiveLot, { ...request, idempotencyKey: id, signal })
      kept.set((old) => withReceipt(old, lineId, receipt, newKey()))
    } catch (error) {
      if (mayStillGo(error) || !(error instanceof Error)) throw error
      // Refused, it is a line to be mended again.
      kept.set((old) => ({ ...withLine(old, lineId, { refused: refusalOf(error) }), currentId: lineId }))
    }
    const changed = (['stock', 'alerts', 'products'] as const).map((topic) => [topic, null] as const)
    void invalidateTopics(client, new Map(changed))
  })
  const scans = useOutbox<Scan>('deliveryScans', async ({ id, payload: { shopId, text } }, signal) => {
    const read = { params: { shopId }, body: { text }, idempotencyKey: id, signal }
    const answer = await call(ROUTES.readScan, read)
    if (answer.kind === 'cartridge')
      throw new Refusal(
        t('stock.thatIsOurOwnLabelOfWhichIsOnFileTo', {
          code: answer.cartridge.code,
          productName: answer.cartridge.productName,
        }),
      )
    const before = kept.get()
    if (hasSerial(before, answer) && !before.scanIds.includes(id))
      throw new Refusal(t('stock.scannedBefore', { serial: answer.serial ?? '' }))
    kept.set((old) => withScan(old, id, answer, onTheirWay(me.id)))
  })
  const delivery = useKept(kept)
  return {
    delivery,
    change: kept.set,
    scans,
    locked: new Set(receipts.items.map(({ payload }) => payload.lineId)),
    isSlow: receipts.items.some(({ tries }) => tries > 0),
    /** Sends every line once; one that lacks something is shown instead. */
    receive: () => {
      const now = kept.get()
      // As it is kept, not as it was drawn: a second press finds the lines on their way.
      const open = now.lines.filter(({ id }) => !onTheirWay(me.id).has(id))
      const lacking = open.find((line) => missingIn(line) !== undefined)
      if (lacking !== undefined) return kept.set((old) => ({ ...old, currentId: lacking.id }))
      for (const line of open) {
        kept.set((old) => withLine(old, line.id, { refused: null }))
        scans.startOver()
        receipts.add({ lineId: line.id, request: toRequest(now, line) })
      }
    },
  }
}

/** Lines that are being received: asked where they are kept, since a scan may come in while no screen shows them. */
function onTheirWay(personId: string): ReadonlySet<string> {
  const { items } = keptIn<Outgoings<Sending>>(`clampclock.outbox.${personId}.receipts`, {
    items: [],
    sent: 0,
  }).get()
  return new Set(items.map(({ payload }) => payload.lineId))
}
