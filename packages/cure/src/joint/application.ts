import { requireInRange, requireNotNegative, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C, type DataSheet } from '../sheet/data-sheet.ts'
import { DEW_POINT_MARGIN_C, dewPointC } from './dew-point.ts'

/**
 * What is measured at the panel before adhesive is applied. Humidity or dew point; both may be left out where
 * not measured.
 */
export interface ApplicationConditions {
  readonly sheet: Pick<DataSheet, 'applicationRangeC'>
  readonly panelC: number
  /** Accuracy of the panel reading, degC; counted against us. 0 when not given. */
  readonly panelAccuracyC?: number
  readonly airC?: number
  readonly relativeHumidityPercent?: number
  readonly dewPointC?: number
}

export type ApplicationFault =
  | {
      readonly kind: 'tooCold'
      readonly panelC: number
      readonly panelAccuracyC: number
      readonly rangeC: Range
    }
  | {
      readonly kind: 'tooHot'
      readonly panelC: number
      readonly panelAccuracyC: number
      readonly rangeC: Range
    }
  | {
      readonly kind: 'nearDewPoint'
      readonly panelC: number
      readonly panelAccuracyC: number
      readonly dewPointC: number
      /**
       * By how much the metal is above the dew point with the accuracy taken off, degC; below
       * `requiredMarginC`.
       */
      readonly marginC: number
      readonly requiredMarginC: number
    }

/**
 * Why adhesive must not go on this panel now; empty when it may. The panel's accuracy is counted against us
 * at both ends. Moisture is judged only when the dew point, or air temperature and humidity, are given.
 *
 * @throws RangeError for a figure that no instrument shows.
 */
export function applicationFaults(conditions: ApplicationConditions): readonly ApplicationFault[] {
  const { sheet, panelC, panelAccuracyC = 0 } = conditions
  requireInRange('panelC', panelC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'measure the panel again')
  requireNotNegative('panelAccuracyC', panelAccuracyC, 'degC', 'give the accuracy of the thermometer')
  const rangeC = sheet.applicationRangeC
  const faults: ApplicationFault[] = []
  if (panelC - panelAccuracyC < rangeC.min) faults.push({ kind: 'tooCold', panelC, panelAccuracyC, rangeC })
  if (panelC + panelAccuracyC > rangeC.max) faults.push({ kind: 'tooHot', panelC, panelAccuracyC, rangeC })
  const dewPoint = dewPointOf(conditions)
  if (dewPoint === undefined) return faults
  const marginC = panelC - panelAccuracyC - dewPoint
  // A hundredth of a nanodegree of rounding must not refuse a panel that stands exactly on the line.
  if (marginC >= DEW_POINT_MARGIN_C - 1e-9) return faults
  const nearDewPoint = {
    panelC,
    panelAccuracyC,
    dewPointC: dewPoint,
    marginC,
    requiredMarginC: DEW_POINT_MARGIN_C,
  }
  return [...faults, { kind: 'nearDewPoint', ...nearDewPoint }]
}

function dewPointOf(conditions: ApplicationConditions): number | undefined {
  if (conditions.dewPointC !== undefined) {
    return requireInRange(
      'dewPointC',
      conditions.dewPointC,
      { min: -100, max: 60 },
      'degC',
      'check the hygrometer',
    )
  }
  if (conditions.relativeHumidityPercent === undefined) return undefined
  if (conditions.airC === undefined) {
    throw new RangeError('airC is missing: relative humidity says nothing without the temperature of the air')
  }
  return dewPointC(conditions.airC, conditions.relativeHumidityPercent)
}
