import { toldOf } from '../../foundation/words/kept.ts'
import { message, type Message, type Told } from '@clampclock/messages'
import type { BondCurve, BondEvent } from '@clampclock/contracts'
import { bondCurve } from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import type { BondRow } from './bond-store.ts'
import { estimateOf } from './history.ts'
import { toReady } from './move-check.ts'
import { isRunning } from '../../work/index.ts'

const MINUTE_MS = 60_000
/** Drawn beyond the conservative ready time, so that the line is seen to pass it. */
const BEYOND_READY_MS = 60 * MINUTE_MS
/** Drawn ahead where there is no ready time. */
const AHEAD_MS = 24 * 60 * MINUTE_MS
/** About as many points as a small screen has room for. */
const POINTS = 200
/** A step this small would draw days of cure in tens of thousands of points. */
const MOST_POINTS = 3000

/** A bond's curve as of `now`: what has been, and what the forecast makes of it. */
export async function curveOf(
  tx: Tx,
  bond: BondRow,
  timeZone: string,
  now: Date,
  stepMinutes?: number,
): Promise<BondCurve> {
  const { history, estimate, asOf, fault } = await estimateOf(tx, bond, timeZone, now)
  const { readyAt } = estimate.handlingStrength
  const ended = !isRunning(bond)
  const toMs = ended
    ? asOf.getTime()
    : readyAt.conservative.kind === 'at'
      ? Math.max(asOf.getTime(), readyAt.conservative.atMs) + BEYOND_READY_MS
      : asOf.getTime() + AHEAD_MS
  const span = Math.max(1, (toMs - bond.appliedAt.getTime()) / MINUTE_MS)
  const step = Math.max(stepMinutes ?? span / POINTS, span / MOST_POINTS)
  const points = fault === null ? bondCurve(history, { toMs, stepMinutes: step }) : []
  return {
    bondId: bond.id,
    asOf,
    readyAt: {
      earliest: toReady(readyAt.earliest),
      expected: toReady(readyAt.expected),
      conservative: toReady(readyAt.conservative),
    },
    points: points.map(({ atMs, temperatureC, progress }) => ({
      at: new Date(atMs),
      lowC: temperatureC.low,
      expectedC: temperatureC.expected,
      highC: temperatureC.high,
      progress,
    })),
    events: eventsOf(bond),
  }
}

const QUALITY: Readonly<Record<string, Message>> = {
  suspect: message('finding.inDoubt'),
  withdrawn: message('finding.withdrawn'),
  replaced: message('finding.replaced'),
}

/** All that is on record of a bond, in order of time. */
function eventsOf(bond: BondRow): BondEvent[] {
  const event = (
    kind: BondEvent['kind'],
    at: Date | null,
    by: string | null,
    detail: Told = '',
    temperatureC: number | null = null,
  ): BondEvent[] => (at ? [{ kind, at, by: by ?? '', temperatureC, detail }] : [])
  return [
    ...event('applied', bond.appliedAt, bond.appliedBy, `${bond.sheet.product.name}, ${bond.cartridge.code}`),
    ...bond.panelReadings.flatMap(({ at, recordedBy, temperatureC, quality }) =>
      event('reading', at, recordedBy, QUALITY[quality] ?? '', temperatureC),
    ),
    ...event('clamped', bond.clampedAt, bond.clampedBy),
    ...event('released', bond.releasedAt, bond.releasedBy),
    ...event('abandoned', bond.abandonedAt, bond.abandonedBy, bond.abandonReason ?? ''),
    ...bond.incidents.flatMap(({ at, recordedBy, reason, said, inspections, disposition }) => [
      ...event('incident', at, recordedBy, toldOf(reason, said)),
      ...inspections.flatMap((each) =>
        event(
          'inspection',
          each.at,
          each.recordedBy,
          `${each.inspectorName}, ${each.method}: ${each.result}`,
        ),
      ),
      ...(disposition
        ? event(
            'disposition',
            disposition.at,
            disposition.recordedBy,
            toldOf(disposition.reason, disposition.said),
          )
        : []),
    ]),
  ].toSorted((a, b) => a.at.getTime() - b.at.getTime())
}
