import type { ProblemReason } from '@clampclock/contracts'
import type { Actor } from '../access/actor.ts'
import { holdsAt, qualificationsFor } from '../access/qualifications.ts'
import type { Tx } from '../database/database.ts'
import { formatDate } from '@clampclock/quantities'
import { isoDate } from '../http/dates.ts'
import { isCalibratedAt, type InstrumentRow } from '../shops/instruments.ts'

/** Classes that ask who does it and with what; docs/decisions/0120-safety-class.md says why these. */
const DEMANDING: ReadonlySet<string> = new Set(['S1', 'S2'])

/** Panel readings in calibration that an S1 joint needs before its clamps come off. Common practice, no source. */
const S1_READINGS = 2

type QualificationRow = Awaited<ReturnType<typeof qualificationsFor>>[number]

export interface Qualified {
  /** What entitles the person; null when nothing does. */
  readonly qualification: QualificationRow | null
  readonly reasons: readonly ProblemReason[]
}

/** Rule 8: may this person make a joint of this class then? */
export async function qualifiedFor(
  tx: Tx,
  actor: Actor,
  safetyClass: string,
  at: Date,
  timeZone: string,
): Promise<Qualified> {
  const held = actor.kind === 'person' ? await qualificationsFor(tx, actor.id, safetyClass) : []
  const qualification = held.find((row) => holdsAt(row, at, timeZone)) ?? null
  if (qualification || !DEMANDING.has(safetyClass)) return { qualification, reasons: [] }
  const last = held[0]
  const fix = 'Let somebody do it who is qualified'
  const reason = last
    ? {
        code: 'qualification-expired',
        message: `${actor.name}'s qualification for ${last.safetyClass} ${endOf(last)}; the joint is of class ${safetyClass}`,
      }
    : {
        code: 'not-qualified',
        message: `${actor.name} has no qualification on record for a joint of class ${safetyClass}`,
      }
  return { qualification: null, reasons: [{ ...reason, fix, overridable: true }] }
}

function endOf(row: QualificationRow): string {
  return row.endedAt
    ? `was ended on ${formatDate(isoDate(row.endedAt))}`
    : `is valid from ${formatDate(isoDate(row.issuedOn))} to ${formatDate(isoDate(row.validUntil))}`
}

/** Rule 8: which thermometer took the panel's temperature, and is it in calibration? */
export function thermometerReasons(
  safetyClass: string,
  instrument: InstrumentRow | null,
  at: Date,
  timeZone: string,
): ProblemReason[] {
  if (!DEMANDING.has(safetyClass)) return []
  const field = 'body.panel.instrumentId'
  if (instrument) return calibrationReasons(instrument, field, at, timeZone)
  return [
    {
      code: 'no-instrument',
      field,
      message: `Which thermometer took the panel's temperature is not said; a joint of class ${safetyClass} asks for one in calibration`,
      fix: "Name one of the shop's register",
      overridable: true,
    },
  ]
}

/** A hygrometer need not be named; one that is must be in calibration. */
export function hygrometerReasons(
  safetyClass: string,
  instrument: InstrumentRow | null,
  at: Date,
  timeZone: string,
): ProblemReason[] {
  if (!DEMANDING.has(safetyClass) || !instrument) return []
  return calibrationReasons(instrument, 'body.hygrometerId', at, timeZone)
}

function calibrationReasons(
  instrument: InstrumentRow,
  field: string,
  at: Date,
  timeZone: string,
): ProblemReason[] {
  const { name, serialNumber, calibratedUntil } = instrument
  if (isCalibratedAt(calibratedUntil, at, timeZone)) return []
  const state = calibratedUntil
    ? `was calibrated until ${formatDate(isoDate(calibratedUntil))}`
    : 'was never calibrated'
  return [
    {
      code: 'out-of-calibration',
      field,
      message: `${name} (${serialNumber}) ${state}`,
      fix: 'Take an instrument that is in calibration',
      overridable: true,
    },
  ]
}

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
      message: `${bond.joint.name}: ${good} of ${S1_READINGS} panel readings by an instrument in calibration, which class S1 asks for`,
      fix: 'Measure the panel',
      overridable: true,
    },
  ]
}
