/** Each look names the next one; this long after it, something keeps the service from it. */
const LATE_MS = 3 * 60_000

interface Watched {
  readonly nextAt: string | null
  readonly failing: boolean
}

/** Whether alerts may be missing: the last look failed, or the next one is overdue. */
export function isUnwatched({ nextAt, failing }: Watched, nowMs: number): boolean {
  return failing || (nextAt !== null && nowMs - Date.parse(nextAt) > LATE_MS)
}
