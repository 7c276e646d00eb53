import type { BondRecord, RecordedApplication } from '@clampclock/contracts'
import type { Actor } from '../access/actor.ts'
import type { Application, Gates } from '../bonds/gates.ts'
import type { JointRow } from '../bonds/joint-store.ts'
import type { Qualified } from '../bonds/who-and-with-what.ts'
import { panelTauMinutes } from '../bonds/panel.ts'
import { figuresOf } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { isoDate } from '../http/dates.ts'
import { procedureOf } from '../repairs/procedure.ts'
import { isCalibratedAt, type InstrumentRow } from '../shops/instruments.ts'
import { expiryOf } from '../stock/cartridge-store.ts'
import type { RecordEvent } from './chain.ts'

/** All that was known when the adhesive left the nozzle. */
export async function appliedEvent(
  tx: Tx,
  actor: Actor,
  joint: JointRow,
  application: Application,
  gates: Gates & {
    readonly sheet: NonNullable<Gates['sheet']>
    readonly amount: NonNullable<RecordedApplication['amount']>
  },
  attempt: number,
  at: Date,
  timeZone: string,
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
    },
    cartridges: gates.cartridges.map(({ row, amountMl }) => {
      const expiry = expiryOf(row)
      return {
        code: row.code,
        lotNumber: row.lot_number,
        amountMl,
        printedExpiry: isoDate(row.printed_expiry),
        effectiveExpiryAt: new Date(expiry.atMs),
        expiryReason: expiry.reason,
      }
    }),
    amount: gates.amount,
    dispenser: dispenser.name,
    bay: bay?.name ?? null,
    prepared,
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
    facts: { ...facts, personId: actor.id, rows: rowsOf(joint, application, gates.sheet) },
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
    panelTauMinutes: panelTauMinutes(joint),
    panelMaterial: joint.panelMaterial,
    panelThicknessMm: joint.panelThicknessMm,
    sheet: figuresOf(sheet),
  }
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

/** The cautions that go with every record, whatever it says. */
export const CAUTIONS: BondRecord['cautions'] = [
  'The data sheet and the safety data sheet rule over any figure here.',
  "Structural repair: by the vehicle maker's procedure and by trained people only.",
  'Handling strength is not driving strength.',
  'Ready times are estimates from measured and forecast temperatures; the careful one counts sensor errors and gaps against the joint.',
]
