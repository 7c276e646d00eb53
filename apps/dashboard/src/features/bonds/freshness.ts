import { useIsMutating, useQueryClient, type QueryKey } from '@tanstack/react-query'
import { useActs, type Acts } from '../../api/acts/state.ts'
import { isTask } from '../../api/acts/task.ts'
import type { ServerNow } from '../../api/server-clock.ts'
import { useMe } from '../../api/use-me.ts'

/** A safety answer is believed for this long: then it is asked for again, and nothing is said meanwhile. */
export const FRESH_MS = 60_000

/** How often a screen that shows a safety answer asks for it, so that it does not grow old while the service answers. */
export const ASK_AGAIN_MS = 25_000

/** Whether an answer may have been given more than a minute ago. */
export function isOldAnswer(asOf: string, now: ServerNow): boolean {
  return now.latestMs - Date.parse(asOf) > FRESH_MS
}

/**
 * Whether a safety answer on the screen may be out of date: it is over a minute old, something that it rests on has changed
 * and the new answer is not here yet, or the service does not know what was pressed on this device.
 *
 * @param repairOrderId of the vehicle that is asked about; undefined where none stands there.
 */
export function useDoubt(
  queryKey: QueryKey,
  asOf: string,
  now: ServerNow,
  repairOrderId: string | undefined,
): boolean {
  const client = useQueryClient()
  const acting = useIsMutating()
  const personId = useMe().id
  const kept = useActs()
  const isChanged = client.getQueryState(queryKey)?.isInvalidated ?? true
  return acting > 0 || isChanged || isOldAnswer(asOf, now) || isUntold(kept, personId, repairOrderId)
}

/**
 * Whether the service lacks something that was pressed here: an act of one's own that waits, whatever it is about, and of
 * the vehicle also what waits for somebody else, and what was refused and nobody has looked at. Unknown counts as yes.
 */
export function isUntold(
  { items, isKnown }: Acts,
  personId: string,
  repairOrderId: string | undefined,
): boolean {
  if (!isKnown) return true
  return items.some((act) => {
    const isOfVehicle = act.about.repairOrderId === repairOrderId
    if (act.state === 'waiting') return isOfVehicle || act.personId === personId
    return isOfVehicle && isTask(act)
  })
}
