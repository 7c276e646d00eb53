import type { RecordedApplication } from '@clampclock/contracts'
import type { ReadingFinding } from '@clampclock/cure'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Application, Gates } from './gates.ts'
import { figuresOf, isApproved, type JointRow, procedureOf } from '../../work/index.ts'
import type { Qualified } from './who-and-with-what.ts'
import { panelTauMinutes } from '../estimates/panel.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { toMl } from '../../foundation/database/volumes.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { storedFindings } from '../temperature/findings.ts'
import { isCalibratedAt, type InstrumentRow } from '../../foundation/shops/instruments.ts'
import { expiryOf } from '../../supply/index.ts'
import type { RecordEvent } from '../records/chain.ts'

interface Told {
  readonly attempt: number
  readonly at: Date
  readonly now: Date
  readonly timeZone: string
  readonly countsNotBefore: Date | null
  readonly findings: readonly ReadingFinding[]
}

/** All that was known when the adhesive left the nozzle. */
export async function appliedEvent(
  tx: Tx,
  actor: Actor,
  joint: JointRow,
  application: Application,
  gates: Gates & {
    readonly sheet: NonNullable<Gates['sheet']>
    readonly amount: NonNullable<RecordedApplication['amount']>
    /** Of each cartridge, uL. */
    readonly bookedUl: readonly number[]
  },
  { attempt, at, now, timeZone, countsNotBefore, findings }: Told,
): Promise<RecordEvent> {
  const { dispenserId, bayId, panel, airTemperatureC, relativeHumidityPercent, prepared } = application
  const dispenser = await tx.dispenser.findUniqueOrThrow({ where: { id: dispenserId } })
  const bay = bayId ? await tx.resource.findUniqueOrThrow({ where: { id: bayId } }) : null
  const facts: RecordedApplication = {
    by: actor.name,
    vehicle: joint.repairOrder.vehicle,
    repairOrderNumber: joint.repairOrder.number,
    vin: joint.repairOrder.vin,
    plate: joint.repairOrder.plate,
    jointName: joint.name,
    attempt,
    safetyClass: joint.safetyClass as RecordedApplication['safetyClass'],
    procedure: procedureOf(joint),
    qualification: qualificationFacts(gates.qualification),
    product: {
      name: gates.cartridges[0]!.row.product_name,
      sheetRevision: gates.sheet.revision,
      sheetIssuedOn: isoDate(gates.sheet.issuedOn),
      sheetApproval: approvalFacts(gates.sheet),
    },
    cartridges: gates.cartridges.map(({ row, amountMl }, i) => {
      const expiry = expiryOf(row)
      return {
        code: row.code,
        lotNumber: row.lot_number,
        amountMl,
        bookedMl: toMl(gates.bookedUl[i]!),
        printedExpiry: isoDate(row.printed_expiry),
        effectiveExpiryAt: new Date(expiry.atMs),
        expiryReason: expiry.reason,
        life: {
          limit: expiry.limit,
          timeZone: row.time_zone,
          openedAt: row.opened_at,
          openLifeDays: row.open_life_days,
          warmStorageLossMs: row.warm_loss_ms,
        },
      }
    }),
    amount: gates.amount,
    dispenser: dispenser.name,
    bay: bay?.name ?? null,
    prepared,
    preparation: application.preparation ?? null,
    panel: {
      temperatureC: panel.temperatureC,
      accuracyC: gates.panelAccuracyC,
      source: panel.source,
      instrument: instrumentFacts(gates.thermometer, at, timeZone),
    },
    air: {
      temperatureC: airTemperatureC,
      relativeHumidityPercent,
      dewPointC: gates.dewPointC,
      hygrometer: instrumentFacts(gates.hygrometer, at, timeZone),
    },
  }
  return {
    kind: 'applied',
    at,
    facts: {
      ...facts,
      personId: actor.id,
      recordedAt: now.toISOString(),
      countsNotBefore: countsNotBefore?.toISOString() ?? null,
      reading: readingFacts(actor, now, findings, findings),
      rows: rowsOf(joint, application, gates.sheet),
    },
  }
}

/** What the gate makes of a reading: when and by whom it was entered, what was found about it, and what is still in doubt. */
export function readingFacts(
  actor: Actor,
  now: Date,
  findings: readonly ReadingFinding[],
  left: readonly ReadingFinding[],
): Readonly<Record<string, unknown>> {
  return {
    recordedAt: now.toISOString(),
    recordedById: actor.id,
    quality: left.length === 0 ? 'good' : 'suspect',
    findings: storedFindings(findings) ?? [],
  }
}

/** Which rows it was made of, and the figures that the estimate is computed from: so that none is exchanged later. */
function rowsOf(joint: JointRow, application: Application, sheet: NonNullable<Gates['sheet']>) {
  return {
    jointId: joint.id,
    repairOrderId: joint.repairOrderId,
    sheetId: sheet.id,
    dispenserId: application.dispenserId,
    bayId: application.bayId,
    hygrometerId: application.hygrometerId,
    airReadWith: application.airReadWith ?? null,
    panelTauMinutes: panelTauMinutes(joint),
    panelMaterial: joint.panelMaterial,
    panelThicknessMm: joint.panelThicknessMm,
    sheet: figuresOf(sheet),
  }
}

function approvalFacts(sheet: NonNullable<Gates['sheet']>): RecordedApplication['product']['sheetApproval'] {
  const { decision } = sheet
  return decision !== null && isApproved(sheet)
    ? { at: decision.decidedAt, by: decision.decidedByName }
    : null
}

export function qualificationFacts(row: Qualified['qualification']): RecordedApplication['qualification'] {
  return (
    row && {
      safetyClass: row.safetyClass as NonNullable<RecordedApplication['qualification']>['safetyClass'],
      evidence: row.evidence,
      issuedOn: isoDate(row.issuedOn),
      validUntil: isoDate(row.validUntil),
    }
  )
}

export function instrumentFacts(
  row: InstrumentRow | null,
  at: Date,
  timeZone: string,
): RecordedApplication['panel']['instrument'] {
  return (
    row && {
      name: row.name,
      serialNumber: row.serialNumber,
      calibratedUntil: row.calibratedUntil && isoDate(row.calibratedUntil),
      inCalibration: isCalibratedAt(row.calibratedUntil, at, timeZone),
    }
  )
}
