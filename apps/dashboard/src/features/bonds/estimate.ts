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

type Known = Pick<Bond, 'sheet' | 'appliedAt' | 'readings' | 'forecast' | 'panelTauMinutes' | 'estimate'>

/**
 * The bond's milestones at `nowMs`, by the very function that the server's gate uses. What the function refuses to
 * compute (a faulty reading, say) is shown as the server last answered it.
 */
export function estimateAt(bond: Known, nowMs: number): Estimate {
  try {
    return estimateBond({
      sheet: bond.sheet,
      appliedAtMs: Date.parse(bond.appliedAt),
      readings: bond.readings.map(({ at, temperatureC, accuracyC, source }) => ({
        atMs: Date.parse(at),
        temperatureC,
        accuracyC,
        source,
      })),
      forecast: bond.forecast.map(({ at, ...band }) => ({ atMs: Date.parse(at), ...band })),
      nowMs,
      ...(bond.panelTauMinutes === null ? {} : { panelTauMinutes: bond.panelTauMinutes }),
    })
  } catch (error) {
    if (error instanceof RangeError) return fromWire(bond.estimate)
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
