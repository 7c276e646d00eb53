import { estimateBond, type ReadyInstant } from '@clampclock/cure'
import type { Bond } from '../../api/types.ts'

export interface Milestone {
  readonly progress: { readonly earliest: number; readonly expected: number; readonly conservative: number }
  readonly readyAt: {
    readonly earliest: ReadyInstant
    readonly expected: ReadyInstant
    readonly conservative: ReadyInstant
  }
  readonly basis: Bond['estimate']['workTime']['basis']
}

export interface Estimate {
  readonly workTime: Milestone
  readonly handlingStrength: Milestone
  readonly fullCure: Milestone
}

type Known = Pick<
  Bond,
  | 'judgedBy'
  | 'chemistry'
  | 'place'
  | 'appliedAt'
  | 'countsFrom'
  | 'readings'
  | 'forecast'
  | 'panelTauMinutes'
  | 'estimate'
>

/**
 * The bond's milestones at `nowMs`, by the very function that the server's gate uses. What the function refuses to
 * compute (a faulty reading, say) is shown as the server last answered it.
 */
export function estimateAt(bond: Known, nowMs: number): Estimate {
  return compute(bond, nowMs, forecastOf(bond)) ?? fromWire(bond.estimate)
}

/**
 * When the work time ends if the metal stays as it was last measured, for a bay with no thermometer to forecast from:
 * the joint must be closed by something. Undefined where nothing was measured at all.
 */
export function workTimeEndIfSteadyMs(bond: Known, nowMs: number): number | undefined {
  const last = bond.readings.at(-1)
  if (last === undefined) return undefined
  const [lowC, highC] = [last.temperatureC - last.accuracyC, last.temperatureC + last.accuracyC]
  const steady = [0, STEADY_HOURS].map((hours) => ({
    atMs: nowMs + hours * 3_600_000,
    expectedC: last.temperatureC,
    lowC,
    highC,
  }))
  const end = compute(bond, nowMs, steady)?.workTime.readyAt.earliest
  return end?.kind === 'at' ? end.atMs : undefined
}

/** Longer than the work time of any adhesive in a shop that is warm enough to use it. */
const STEADY_HOURS = 24

type Forecast = Parameters<typeof estimateBond>[0]['forecast']

function forecastOf({ forecast }: Known): Forecast {
  return forecast.map(({ at, ...band }) => ({ atMs: Date.parse(at), ...band }))
}

function compute(bond: Known, nowMs: number, forecast: Forecast): Estimate | undefined {
  const [sheet, ...alsoSheets] = bond.judgedBy.map((one) => ({ ...one, chemistry: bond.chemistry }))
  if (sheet === undefined) return undefined
  try {
    return estimateBond({
      sheet,
      // A later revision may be slower: left out, the phone would say yes before the server.
      alsoSheets,
      place: bond.place,
      appliedAtMs: Date.parse(bond.appliedAt),
      countsFromMs: Date.parse(bond.countsFrom),
      // The whole reading: left out, a doubt or a wider band would let the phone say yes before the server.
      readings: bond.readings.map(({ at, by: _by, ...reading }) => ({ atMs: Date.parse(at), ...reading })),
      forecast,
      nowMs,
      ...(bond.panelTauMinutes === null ? {} : { panelTauMinutes: bond.panelTauMinutes }),
    })
  } catch (error) {
    if (error instanceof RangeError) return undefined
    throw error
  }
}

type WireMilestone = Bond['estimate']['workTime']
type WireReady = WireMilestone['readyAt']['expected']

function fromWire({ workTime, handlingStrength, fullCure }: Bond['estimate']): Estimate {
  const ready = (wire: WireReady): ReadyInstant =>
    wire.kind === 'at' ? { kind: 'at', atMs: Date.parse(wire.at) } : wire
  const milestone = ({ progress, readyAt, basis }: WireMilestone): Milestone => ({
    progress,
    basis,
    readyAt: {
      earliest: ready(readyAt.earliest),
      expected: ready(readyAt.expected),
      conservative: ready(readyAt.conservative),
    },
  })
  return {
    workTime: milestone(workTime),
    handlingStrength: milestone(handlingStrength),
    fullCure: milestone(fullCure),
  }
}
