import {
  estimateBond,
  HAND_AIR_ACCURACY_C,
  rateCurve,
  timeAtTemperature,
  UNKNOWN_PLACE,
  type AdhesiveChemistry,
  type DataSheet,
  type ReadyInstant,
} from '@clampclock/cure'
import { figuresOf, type JointRow } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { bayTemperature } from '../temperature/bay-temperature.ts'
import type { Application, Gates } from './gates.ts'
import { comparedAir } from '../estimates/compared-air.ts'
import { mergeReadings } from '../estimates/history.ts'
import { panelTauMinutes } from '../estimates/panel.ts'

const LEAD_IN_MS = 2 * 3_600_000

export interface PromisedTimes {
  /** The earliest end of the work time: what the countdown will start from; null where nobody can say. */
  readonly workTimeMinutes: number | null
  /** Handling strength on the careful estimate. */
  readonly handlingTimeMinutes: number | null
}

/**
 * What the clocks of a bond would say if it were made at `at`: by the computation that the countdown and the gate will use,
 * so that nobody is promised more before the adhesive is on than is counted once it is.
 */
export async function promisedTimes(
  tx: Tx,
  joint: JointRow,
  { panel, bayId, airTemperatureC, hygrometerId }: Application,
  { sheet: row, panelAccuracyC }: Gates,
  at: Date,
  timeZone: string,
): Promise<PromisedTimes> {
  if (!row) return { workTimeMinutes: null, handlingTimeMinutes: null }
  const { chemistry } = await tx.product.findUniqueOrThrow({ where: { id: row.productId } })
  const sheet: DataSheet = { ...figuresOf(row), chemistry: chemistry as AdhesiveChemistry }
  const bay = bayId
    ? await bayTemperature(tx, bayId, timeZone, new Date(at.getTime() - LEAD_IN_MS), at, at)
    : { readings: [], forecast: [], place: UNKNOWN_PLACE }
  const atMs = at.getTime()
  const { source, temperatureC } = panel
  const tau = panelTauMinutes(joint)
  const reading = { atMs, temperatureC, accuracyC: panelAccuracyC, source, isByPanelThermometer: true }
  const { air, metal, forecast } = comparedAir(bay, [reading], {
    atMs,
    temperatureC: airTemperatureC,
    accuracyC: HAND_AIR_ACCURACY_C,
    isByPanelThermometer: hygrometerId === null && source === 'metalProbe',
  })
  const { workTime, handlingStrength } = estimateBond({
    sheet,
    appliedAtMs: atMs,
    readings: mergeReadings(metal, air),
    forecast,
    nowMs: atMs,
    place: bay.place,
    ...(tau === null ? {} : { panelTauMinutes: tau }),
  })
  const steady = (milestone: 'workTime' | 'handlingStrength', c: number) =>
    finite(timeAtTemperature(rateCurve(sheet, milestone), c).minutes)
  return {
    // Without a forecast, as if the metal stayed as it was measured, on the side that counts against us.
    workTimeMinutes:
      minutesTo(workTime.readyAt.earliest, atMs) ?? steady('workTime', temperatureC + panelAccuracyC),
    handlingTimeMinutes:
      minutesTo(handlingStrength.readyAt.conservative, atMs) ??
      (bay.forecast.length > 0 ? null : steady('handlingStrength', temperatureC - panelAccuracyC)),
  }
}

function minutesTo(ready: ReadyInstant, fromMs: number): number | null {
  return ready.kind === 'at' ? (ready.atMs - fromMs) / 60_000 : null
}

function finite(minutes: number): number | null {
  return Number.isFinite(minutes) ? minutes : null
}
