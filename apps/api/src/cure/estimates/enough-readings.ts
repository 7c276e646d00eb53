import { message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import { isCalibratedAt } from '../../foundation/shops/instruments.ts'

/** Panel readings in calibration that an S1 joint needs before its clamps come off. Common practice, no source. */
const S1_READINGS = 2
/** Two readings closer together than this are one look at the metal, minutes. Common practice, no source. */
const ONE_LOOK_MINUTES = 10

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
  const good = looksAt(
    bond.panelReadings.filter(
      ({ at, calibratedUntil, quality }) =>
        quality === 'good' && isCalibratedAt(calibratedUntil, at, timeZone),
    ),
  )
  if (good >= S1_READINGS) return []
  return [
    {
      code: 'too-few-readings',
      message: message('move.tooFewReadings', { joint: bond.joint.name, good, needed: S1_READINGS }),
      fix: message('move.measureLaterFix', { apart: { minutes: ONE_LOOK_MINUTES } }),
      overridable: true,
    },
  ]
}

/** How often the metal was looked at: the application and the moment after it are one look. */
function looksAt(readings: Readings['panelReadings']): number {
  let looks = 0
  let lastMs = -Infinity
  for (const atMs of readings.map(({ at }) => at.getTime()).toSorted((a, b) => a - b)) {
    if (atMs - lastMs < ONE_LOOK_MINUTES * 60_000) continue
    looks += 1
    lastMs = atMs
  }
  return looks
}
