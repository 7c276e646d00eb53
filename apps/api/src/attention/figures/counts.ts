import type { PlanFigures } from '@clampclock/contracts'

/** What is counted; the shares follow from it, so that those of all shops are no mean of means. */
export type Counts = Pick<
  PlanFigures,
  | 'promised'
  | 'onTime'
  | 'bayHours'
  | 'bayHoursBooked'
  | 'ovenHours'
  | 'ovenHoursBooked'
  | 'bondsReleased'
  | 'cureHours'
  | 'earlyReleases'
  | 'operationsPlanned'
  | 'operationsMoved'
  | 'hoursMoved'
>

const NOTHING: Counts = {
  promised: 0,
  onTime: 0,
  bayHours: 0,
  bayHoursBooked: 0,
  ovenHours: 0,
  ovenHoursBooked: 0,
  bondsReleased: 0,
  cureHours: 0,
  earlyReleases: 0,
  operationsPlanned: 0,
  operationsMoved: 0,
  hoursMoved: 0,
}

export function sumOf(all: readonly Counts[]): Counts {
  const sum = { ...NOTHING }
  for (const counts of all)
    for (const name of Object.keys(NOTHING) as (keyof Counts)[]) sum[name] += counts[name]
  return sum
}

export function withShares(shopId: string | null, shopName: string, counts: Counts): PlanFigures {
  const hours = (value: number) => Math.round(value * 100) / 100
  return {
    shopId,
    shopName,
    ...counts,
    bayHours: hours(counts.bayHours),
    bayHoursBooked: hours(counts.bayHoursBooked),
    ovenHours: hours(counts.ovenHours),
    ovenHoursBooked: hours(counts.ovenHoursBooked),
    cureHours: hours(counts.cureHours),
    hoursMoved: hours(counts.hoursMoved),
    onTimeShare: share(counts.onTime, counts.promised),
    bayUse: share(counts.bayHoursBooked, counts.bayHours),
    ovenUse: share(counts.ovenHoursBooked, counts.ovenHours),
    earlyReleaseShare: share(counts.earlyReleases, counts.bondsReleased),
    movedShare: share(counts.operationsMoved, counts.operationsPlanned),
  }
}

function share(part: number, whole: number): number | null {
  return whole === 0 ? null : Math.round((part / whole) * 10_000) / 10_000
}
