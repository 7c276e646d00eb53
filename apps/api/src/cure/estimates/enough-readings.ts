import { message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import { isCalibratedAt } from '../../foundation/shops/instruments.ts'

/** Panel readings in calibration that an S1 joint needs before its clamps come off. Common practice, no source. */
const S1_READINGS = 2

interface Readings {
  readonly joint: { readonly name: string; readonly safetyClass: string }
  readonly panelReadings: readonly {
    readonly at: Date
    readonly calibratedUntil: Date | null
    readonly quality: string
  }[]
}

/** Rule 8: does the class ask for more panel readings than there are? */
export function readingReasons(bond: Readings, timeZone: string): ProblemReason[] {
  if (bond.joint.safetyClass !== 'S1') return []
  // One measurement that was sent twice is in doubt, and counts once.
  const good = bond.panelReadings.filter(
    ({ at, calibratedUntil, quality }) => quality === 'good' && isCalibratedAt(calibratedUntil, at, timeZone),
  ).length
  if (good >= S1_READINGS) return []
  return [
    {
      code: 'too-few-readings',
      message: message('move.tooFewReadings', { joint: bond.joint.name, good, needed: S1_READINGS }),
      fix: message('move.measureFix'),
      overridable: true,
    },
  ]
}
