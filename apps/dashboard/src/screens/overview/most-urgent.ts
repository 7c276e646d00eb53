import type { Alert } from '../../api/types.ts'

const RANK = { danger: 0, warning: 1, notice: 2 } as const

/** The most urgent of several shops' alerts, the oldest first among equals. */
export function mostUrgentOf(alerts: readonly Alert[], count: number): readonly Alert[] {
  return alerts
    .toSorted(
      (a, b) => RANK[a.severity] - RANK[b.severity] || Date.parse(a.openedAt) - Date.parse(b.openedAt),
    )
    .slice(0, count)
}
