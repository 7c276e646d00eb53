import { useIsMutating, useQueryClient, type QueryKey } from '@tanstack/react-query'
import type { ServerNow } from '../../api/server-clock.ts'

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
 * and the new answer is not here yet, or an act of one's own has not been answered.
 */
export function useDoubt(queryKey: QueryKey, asOf: string, now: ServerNow): boolean {
  const client = useQueryClient()
  const acting = useIsMutating()
  const isChanged = client.getQueryState(queryKey)?.isInvalidated ?? true
  return acting > 0 || isChanged || isOldAnswer(asOf, now)
}
