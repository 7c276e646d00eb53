/** It looks every half minute: after this long something keeps it from it. */
const LATE_MS = 5 * 60_000

interface Watched {
  readonly at: string | null
  readonly failing: boolean
}

/** Whether alerts may be missing: the last look failed, or none came to its end for minutes. */
export function isUnwatched({ at, failing }: Watched, nowMs: number): boolean {
  return failing || (at !== null && nowMs - Date.parse(at) > LATE_MS)
}
