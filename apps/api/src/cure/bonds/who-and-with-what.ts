import type { ProblemReason } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import { holdsAt, qualificationsFor } from '../../foundation/access/qualifications.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { message, type Message, type Param } from '@clampclock/messages'
import { isoDate } from '../../foundation/http/dates.ts'
import { isCalibratedAt, type InstrumentRow } from '../../foundation/shops/instruments.ts'

/** Classes that ask who does it and with what; docs/decisions/0120-safety-class.md says why these. */
const DEMANDING: ReadonlySet<string> = new Set(['S1', 'S2'])

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
  const fix = message('gate.qualifiedFix')
  const what = { person: actor.name, asked: safetyClass }
  const reason = last
    ? {
        code: 'qualification-expired',
        message: overSentence(last, what),
      }
    : {
        code: 'not-qualified',
        message: message('gate.notQualified', what),
      }
  return { qualification: null, reasons: [{ ...reason, fix, overridable: true }] }
}

function overSentence(
  row: QualificationRow,
  what: { readonly person: string; readonly asked: string },
): Message {
  const day = (date: Date): Param => ({ day: isoDate(date) })
  const held = row.safetyClass
  return row.endedAt
    ? message('gate.qualificationEnded', { ...what, held, on: day(row.endedAt) })
    : message('gate.qualificationExpired', {
        ...what,
        held,
        from: day(row.issuedOn),
        until: day(row.validUntil),
      })
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
      message: message('gate.noInstrument', { asked: safetyClass }),
      fix: message('gate.noInstrumentFix'),
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
  const what = { instrument: name, serial: serialNumber }
  return [
    {
      code: 'out-of-calibration',
      field,
      message: calibratedUntil
        ? message('gate.calibrationOver', { ...what, until: { day: isoDate(calibratedUntil) } })
        : message('gate.neverCalibrated', what),
      fix: message('gate.calibrationFix'),
      overridable: true,
    },
  ]
}
