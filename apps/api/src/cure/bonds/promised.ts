import {
  estimateBond,
  HAND_AIR_ACCURACY_C,
  rateCurve,
  timeAtTemperature,
  UNKNOWN_PLACE,
  type AdhesiveChemistry,
  type Compared,
  type DataSheet,
  type ReadyInstant,
} from '@clampclock/cure'
import { figuresOf, type JointRow } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { bayTemperature } from '../temperature/bay-temperature.ts'
import type { Application, Gates } from './gates.ts'
import { isAirByPanelThermometer } from '../estimates/air-read-with.ts'
import { comparedAir } from '../estimates/compared-air.ts'
import { leadInOf, mergeReadings } from '../estimates/history.ts'
import { panelTauMinutes } from '../estimates/panel.ts'

export interface PromisedTimes {
  /** The earliest end of the work time: what the countdown will start from; null where nobody can say. */
  readonly workTimeMinutes: number | null
  /** Handling strength on the careful estimate. */
  readonly handlingTimeMinutes: number | null
  /** The same, if the air were read with the panel's thermometer and the two agreed; null where nothing would be sooner. */
  readonly ifProvenMinutes: number | null
}

/**
 * What the clocks of a bond would say if it were made at `at`: by the computation that the countdown and the gate will use,
 * so that nobody is promised more before the adhesive is on than is counted once it is.
 */
export async function promisedTimes(
  tx: Tx,
  joint: JointRow,
  { panel, bayId, airTemperatureC, airReadWith, hygrometerId }: Application,
  { sheet: row, panelAccuracyC }: Gates,
  at: Date,
  timeZone: string,
): Promise<PromisedTimes> {
  if (!row) return { workTimeMinutes: null, handlingTimeMinutes: null, ifProvenMinutes: null }
  const { chemistry } = await tx.product.findUniqueOrThrow({ where: { id: row.productId } })
  const sheet: DataSheet = { ...figuresOf(row), chemistry: chemistry as AdhesiveChemistry }
  const bay = bayId
    ? await bayTemperature(tx, bayId, timeZone, leadInOf({ appliedAt: at, bayFrom: null }), at, at)
    : { readings: [], forecast: [], place: UNKNOWN_PLACE }
  const atMs = at.getTime()
  const { source, temperatureC, instrumentId } = panel
  const tau = panelTauMinutes(joint)
  const reading = {
    atMs,
    temperatureC,
    accuracyC: panelAccuracyC,
    source,
    isByPanelThermometer: true,
    instrumentId,
  }
  const { ifProven, ...compared } = await comparedAir(tx, { shopId: joint.shopId, bayId }, bay, [reading], {
    atMs,
    temperatureC: airTemperatureC,
    accuracyC: HAND_AIR_ACCURACY_C,
    isByPanelThermometer: isAirByPanelThermometer({ airReadWith, hygrometerId, source }),
    coldestMetalC: sheet.applicationRangeC.min,
  })
  const estimate = ({ air, metal, forecast }: Compared) =>
    estimateBond({
      sheet,
      appliedAtMs: atMs,
      readings: mergeReadings(metal, air),
      forecast,
      nowMs: atMs,
      place: bay.place,
      ...(tau === null ? {} : { panelTauMinutes: tau }),
    })
  const { workTime, handlingStrength } = estimate(compared)
  const steady = (milestone: 'workTime' | 'handlingStrength', c: number) =>
    finite(timeAtTemperature(rateCurve(sheet, milestone), c).minutes)
  const handlingTimeMinutes =
    minutesTo(handlingStrength.readyAt.conservative, atMs) ??
    (bay.forecast.length > 0 ? null : steady('handlingStrength', temperatureC - panelAccuracyC))
  const proven = ifProven && minutesTo(estimate(ifProven).handlingStrength.readyAt.conservative, atMs)
  return {
    // Without a forecast, as if the metal stayed as it was measured, on the side that counts against us.
    workTimeMinutes:
      minutesTo(workTime.readyAt.earliest, atMs) ?? steady('workTime', temperatureC + panelAccuracyC),
    handlingTimeMinutes,
    ifProvenMinutes:
      proven !== null && (handlingTimeMinutes === null || proven < handlingTimeMinutes) ? proven : null,
  }
}

function minutesTo(ready: ReadyInstant, fromMs: number): number | null {
  return ready.kind === 'at' ? (ready.atMs - fromMs) / 60_000 : null
}

function finite(minutes: number): number | null {
  return Number.isFinite(minutes) ? minutes : null
}
