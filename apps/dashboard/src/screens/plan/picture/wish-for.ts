import type { PlannedOperation } from '../../../api/types.ts'
import type { BarWish } from './gantt-bar.tsx'
import type { RowKind } from '../search.ts'
import type { Wish } from '../use-move.ts'

const MINUTE_MS = 60_000
const SHORTEST_MINUTES = 5

type Moved = Pick<PlannedOperation, 'operationId' | 'startsAt' | 'workMinutes' | 'technicianIds'>

/** What somebody asks for who drags a bar, or its right edge. `from`: the row it was on. */
export function wishFor(
  { operationId, startsAt, workMinutes, technicianIds }: Moved,
  { kind, from }: { readonly kind: RowKind; readonly from: string },
  { minutes, isResize, rowId }: BarWish,
): Wish {
  // The bar is as long as the clock runs, breaks and nights in it; what gets longer is the work.
  if (isResize)
    return { operationId, startsAt, workMinutes: Math.max(SHORTEST_MINUTES, (workMinutes ?? 0) + minutes) }
  const moved = {
    operationId,
    startsAt: new Date(Date.parse(startsAt) + minutes * MINUTE_MS).toISOString(),
  }
  if (rowId === from || kind === 'vehicles') return moved
  if (kind === 'places') return { ...moved, placeId: rowId }
  return { ...moved, technicianIds: technicianIds.map((id) => (id === from ? rowId : id)) }
}
