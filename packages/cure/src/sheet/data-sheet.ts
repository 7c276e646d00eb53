import { isWithin, PLAUSIBLE_TEMPERATURE_C, type Range } from '@clampclock/quantities'
import type { AdhesiveChemistry } from './activation-range.ts'

export { PLAUSIBLE_TEMPERATURE_C }

/**
 * What a bond passes on its way: the joint can no longer be closed, the job may be moved, the adhesive is
 * done.
 */
export type Milestone = 'workTime' | 'handlingStrength' | 'fullCure'

export const MILESTONES: readonly Milestone[] = ['workTime', 'handlingStrength', 'fullCure']

/** The three times that a data sheet gives at one temperature. */
export interface SheetPoint {
  readonly temperatureC: number
  readonly workTimeMinutes: number
  readonly handlingTimeMinutes: number
  readonly fullCureMinutes: number
}

/** A product's data sheet, as far as cure goes. All ranges include their ends. */
export interface DataSheet {
  /** One or more points, in any order. */
  readonly points: readonly SheetPoint[]
  /** Panel temperature at which the adhesive may be applied, degC. */
  readonly applicationRangeC: Range
  /** Below this the adhesive does not cure at all: the rate is zero, degC. */
  readonly lowestCureC: number
  /** Highest temperature for accelerated cure: above it no more credit is given, degC. */
  readonly highestCureC: number
  /** What the cured joint stands, degC. */
  readonly serviceRangeC: Range
  /** Narrows what the careful line must reckon with where the sheet says nothing; any of them when not given. */
  readonly chemistry?: AdhesiveChemistry | undefined
}

export interface DataSheetFault {
  readonly field: string
  readonly message: string
}

const TIME_FIELD = {
  workTime: 'workTimeMinutes',
  handlingStrength: 'handlingTimeMinutes',
  fullCure: 'fullCureMinutes',
} as const satisfies Record<Milestone, keyof SheetPoint>

/** The time to a milestone that a point of the sheet states, minutes. */
export function sheetMinutes(point: SheetPoint, milestone: Milestone): number {
  return point[TIME_FIELD[milestone]]
}

/**
 * Everything that is wrong with a sheet, each with the field at fault and what to do; empty for a good sheet.
 * A sheet whose times do not fall as the temperature rises is refused: no adhesive of this kind cures slower
 * when warmer, so one of the figures was mistyped.
 */
export function dataSheetFaults(sheet: DataSheet): readonly DataSheetFault[] {
  return [...rangeFaults(sheet), ...pointFaults(sheet.points), ...orderFaults(sheet), ...limitFaults(sheet)]
}

function temperatureFault(field: string, value: number): DataSheetFault[] {
  if (Number.isFinite(value) && isWithin(PLAUSIBLE_TEMPERATURE_C, value)) return []
  const { min, max } = PLAUSIBLE_TEMPERATURE_C
  return [{ field, message: `${field} is ${value}, but must be ${min} to ${max} degC: check the data sheet` }]
}

function rangeFaults(sheet: DataSheet): DataSheetFault[] {
  const faults: DataSheetFault[] = []
  for (const name of ['applicationRangeC', 'serviceRangeC'] as const) {
    const { min, max } = sheet[name]
    faults.push(...temperatureFault(`${name}.min`, min), ...temperatureFault(`${name}.max`, max))
    if (min > max)
      faults.push({ field: name, message: `${name} runs from ${min} to ${max} degC: swap its ends` })
  }
  faults.push(...temperatureFault('lowestCureC', sheet.lowestCureC))
  faults.push(...temperatureFault('highestCureC', sheet.highestCureC))
  if (sheet.lowestCureC >= sheet.highestCureC) {
    const message = `lowestCureC (${sheet.lowestCureC} degC) must be below highestCureC (${sheet.highestCureC} degC)`
    faults.push({ field: 'lowestCureC', message })
  }
  return faults
}

function pointFaults(points: readonly SheetPoint[]): DataSheetFault[] {
  if (points.length === 0) {
    const message =
      'points is empty: give at least one temperature with its work, handling and full-cure time'
    return [{ field: 'points', message }]
  }
  return points.flatMap((point, i) => [
    ...temperatureFault(`points[${i}].temperatureC`, point.temperatureC),
    ...MILESTONES.flatMap((milestone) => {
      const field = `points[${i}].${TIME_FIELD[milestone]}`
      const minutes = sheetMinutes(point, milestone)
      if (Number.isFinite(minutes) && minutes > 0) return []
      return [{ field, message: `${field} is ${minutes}, but must be a number of minutes above zero` }]
    }),
    ...stageFaults(point, i),
  ])
}

function stageFaults(point: SheetPoint, i: number): DataSheetFault[] {
  const faults: DataSheetFault[] = []
  if (point.workTimeMinutes > point.handlingTimeMinutes) {
    const message = `points[${i}]: work time (${point.workTimeMinutes} min) cannot be longer than handling time (${point.handlingTimeMinutes} min)`
    faults.push({ field: `points[${i}].workTimeMinutes`, message })
  }
  if (point.handlingTimeMinutes > point.fullCureMinutes) {
    const message = `points[${i}]: handling time (${point.handlingTimeMinutes} min) cannot be longer than full cure (${point.fullCureMinutes} min)`
    faults.push({ field: `points[${i}].handlingTimeMinutes`, message })
  }
  return faults
}

/** Points from cold to warm. */
export function byTemperature(points: readonly SheetPoint[]): readonly SheetPoint[] {
  return points.toSorted((a, b) => a.temperatureC - b.temperatureC)
}

function orderFaults(sheet: DataSheet): DataSheetFault[] {
  const sorted = byTemperature(sheet.points)
  return sorted.slice(1).flatMap((warm, i) => {
    const cold = sorted[i]!
    if (warm.temperatureC === cold.temperatureC) {
      return [{ field: 'points', message: `points has ${warm.temperatureC} degC twice: keep one of them` }]
    }
    return MILESTONES.flatMap((milestone) => {
      const [before, after] = [sheetMinutes(cold, milestone), sheetMinutes(warm, milestone)]
      if (!(after >= before)) return []
      const name = TIME_FIELD[milestone]
      const message = `${name} does not fall as it gets warmer: ${before} min at ${cold.temperatureC} degC, ${after} min at ${warm.temperatureC} degC; check both`
      return [{ field: `points.${name}`, message }]
    })
  })
}

function limitFaults(sheet: DataSheet): DataSheetFault[] {
  return sheet.points.flatMap(({ temperatureC }, i) => {
    const field = `points[${i}].temperatureC`
    if (temperatureC < sheet.lowestCureC) {
      const message = `${field} is ${temperatureC} degC, below lowestCureC (${sheet.lowestCureC} degC), where nothing cures`
      return [{ field, message }]
    }
    if (temperatureC > sheet.highestCureC) {
      const message = `${field} is ${temperatureC} degC, above highestCureC (${sheet.highestCureC} degC): raise that limit or drop the point`
      return [{ field, message }]
    }
    return []
  })
}
