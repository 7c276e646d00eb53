import { ROUTES } from '../../../api/contracts.ts'
import { useQueryClient } from '@tanstack/react-query'
import { call } from '../../../api/client.ts'
import { Refusal } from '../../../api/outbox.ts'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { StockCount } from '../../../api/types.ts'
import { useOutbox } from '../../../api/use-outbox.ts'
import { makersLabel } from '../../../features/scan/cartridge-basket.tsx'
import type { Scanned } from '../../../features/scan/scan-queue.tsx'

/** Every scan of a count, on its way until the service has it: which cartridge it is, and that it is here. */
export function useCountScans({ id: countId, shopId }: StockCount) {
  const client = useQueryClient()
  return useOutbox<Scanned>(`count.${countId}`, async ({ id, payload: { text } }, signal) => {
    const read = { params: { shopId }, body: { text }, idempotencyKey: `${id}.read`, signal }
    const answer = await call(ROUTES.readScan, read)
    if (answer.kind === 'product') throw new Refusal(makersLabel())
    const body = { cartridgeId: answer.cartridge.id }
    const count = await call(ROUTES.addCountEntry, { params: { countId }, body, idempotencyKey: id, signal })
    const { queryKey } = stockQueries.count(countId)
    // Answers may overtake one another, and one that was lost is told as it was: asked again behind it.
    client.setQueryData(queryKey, (old) =>
      old !== undefined && old.entries.length > count.entries.length ? old : count,
    )
    void client.invalidateQueries({ queryKey })
  })
}
