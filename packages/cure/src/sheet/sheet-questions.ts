import { celsiusToFahrenheit, fahrenheitToCelsius, isWithin, type Range } from '@clampclock/quantities'
import { dataSheetFaults, MILESTONES, sheetMinutes, type DataSheet, type Milestone } from './data-sheet.ts'
import { rateCurve, timeAtTemperature } from './rate-curve.ts'

/*
 * What is asked about a data sheet before it is kept. A fault (data-sheet.ts) cannot be; what is asked about here can,
 * but is more often a slip of the hand. Where no source stands beside a limit, it is common practice.
 */

/** Stable kinds with their figures, so that they can be told in any unit and answered by name. degC and minutes. */
export type SheetQuestion = { readonly field: string } & (
  | { readonly kind: 'fahrenheit'; readonly valueC: number; readonly meantC: number }
  | { readonly kind: 'celsius'; readonly valueC: number; readonly meantC: number }
  /** More than twice as fast as the last revision says at the same temperature. */
  | {
      readonly kind: 'muchFaster'
      readonly milestone: Milestone
      readonly temperatureC: number
      readonly minutes: number
      readonly previousMinutes: number
    }
  /** At handling strength within minutes in a room: hours, written as minutes? */
  | { readonly kind: 'handlingInMinutes'; readonly minutes: number; readonly temperatureC: number }
  /** Metal in a shop is never that warm, or that cold. */
  | { readonly kind: 'applicationOutsideShop'; readonly rangeC: Range; readonly shopC: Range }
  | { readonly kind: 'noCureInRoom'; readonly lowestCureC: number; readonly roomC: number }
  | { readonly kind: 'cureEndsHot'; readonly highestCureC: number; readonly usualC: Range }
  | { readonly kind: 'serviceBelowSun'; readonly maxC: number; readonly sunC: number }
)

export type SheetQuestionKind = SheetQuestion['kind']

export const SHEET_QUESTION_KINDS = [
  'fahrenheit',
  'celsius',
  'muchFaster',
  'handlingInMinutes',
  'applicationOutsideShop',
  'noCureInRoom',
  'cureEndsHot',
  'serviceBelowSun',
] as const satisfies readonly SheetQuestionKind[]

/** Metal in a shop that is at work, degC. */
const SHOP_C: Range = { min: 5, max: 40 }
/** A room as sheets mean it, degC: each publishes a point in it. */
const ROOM_C: Range = { min: 15, max: 30 }
const USUAL_ROOM_C = 23
/** Where sheets publish times at all, degC: from a cold shop to a heat lamp. */
const PUBLISHED_C: Range = { min: 0, max: 95 }
/** Where accelerated cure ends, degC. */
const HIGHEST_CURE_C: Range = { min: 30, max: 190 }
/** Nobody applies adhesive to metal that is hotter, degC. */
const HOT_TO_APPLY_C = 60
/** Metal of a dark vehicle in the sun, degC. */
const SUN_C = 50
/** Nothing structural is at handling strength sooner in a room, minutes. */
const LEAST_HANDLING_MINUTES = 10
/** So many times as fast as the last revision is asked about. */
const MUCH_FASTER = 2
/** Exactly twice is not more than twice, whatever the curve rounds. */
const ROUNDING = 1e-9

/**
 * What deserves a second look at the printed sheet; empty for a sheet without faults that looks as sheets do.
 *
 * @param previous The revision that counts so far; left out for a product's first.
 * @throws RangeError for a sheet with faults.
 */
export function sheetQuestions(sheet: DataSheet, previous?: DataSheet): readonly SheetQuestion[] {
  const faults = dataSheetFaults(sheet)
  if (faults.length > 0) throw new RangeError(faults.map(({ message }) => message).join('; '))
  return [
    ...pointQuestions(sheet),
    ...limitQuestions(sheet),
    ...(previous ? fasterQuestions(sheet, previous) : []),
  ]
}

/** The other unit's reading of a value, where that would be usual. */
function slip(field: string, valueC: number, usual: Range): SheetQuestion[] {
  const meant = [
    { kind: 'fahrenheit', meantC: fahrenheitToCelsius(valueC) },
    { kind: 'celsius', meantC: celsiusToFahrenheit(valueC) },
  ] as const
  return meant
    .filter(({ meantC }) => isWithin(usual, meantC))
    .slice(0, 1)
    .map(({ kind, meantC }) => ({ field, kind, valueC, meantC: Math.round(meantC * 10) / 10 }))
}

function pointQuestions({ points }: DataSheet): SheetQuestion[] {
  // A sheet without a point in a room was read in the other unit, or has one temperature wrong.
  const lacksRoom = !points.some(({ temperatureC }) => isWithin(ROOM_C, temperatureC))
  return points.flatMap((point, i) => {
    const { temperatureC, handlingTimeMinutes } = point
    const field = `points[${i}].temperatureC`
    const isUsual = isWithin(PUBLISHED_C, temperatureC)
    const slips = lacksRoom
      ? slip(field, temperatureC, ROOM_C)
      : isUsual
        ? []
        : slip(field, temperatureC, PUBLISHED_C)
    const isTooSoon = temperatureC <= ROOM_C.max && handlingTimeMinutes < LEAST_HANDLING_MINUTES
    return [
      ...slips,
      ...(isTooSoon
        ? [
            {
              field: `points[${i}].handlingTimeMinutes`,
              kind: 'handlingInMinutes',
              minutes: handlingTimeMinutes,
              temperatureC,
            } as const,
          ]
        : []),
    ]
  })
}

function limitQuestions(sheet: DataSheet): SheetQuestion[] {
  const { applicationRangeC: range, lowestCureC, highestCureC, serviceRangeC } = sheet
  const questions: SheetQuestion[] = []
  if (range.min > SHOP_C.max || range.max < SHOP_C.min) {
    questions.push({
      field: 'applicationRangeC',
      kind: 'applicationOutsideShop',
      rangeC: range,
      shopC: SHOP_C,
    })
    questions.push(...slip('applicationRangeC.max', range.max, { min: SHOP_C.min, max: SHOP_C.max }))
  } else if (range.max > HOT_TO_APPLY_C) {
    questions.push(...slip('applicationRangeC.max', range.max, { min: ROOM_C.min, max: SHOP_C.max }))
  }
  if (lowestCureC > USUAL_ROOM_C) {
    questions.push({ field: 'lowestCureC', kind: 'noCureInRoom', lowestCureC, roomC: USUAL_ROOM_C })
    questions.push(...slip('lowestCureC', lowestCureC, { min: -10, max: USUAL_ROOM_C }))
  }
  if (!isWithin(HIGHEST_CURE_C, highestCureC)) {
    questions.push({ field: 'highestCureC', kind: 'cureEndsHot', highestCureC, usualC: HIGHEST_CURE_C })
    questions.push(...slip('highestCureC', highestCureC, HIGHEST_CURE_C))
  }
  if (serviceRangeC.max < SUN_C)
    questions.push({
      field: 'serviceRangeC.max',
      kind: 'serviceBelowSun',
      maxC: serviceRangeC.max,
      sunC: SUN_C,
    })
  return questions
}

/** Each time that is more than twice as fast as before, by the curve of the last revision. */
function fasterQuestions(sheet: DataSheet, previous: DataSheet): SheetQuestion[] {
  return MILESTONES.flatMap((milestone) => {
    const before = rateCurve(previous, milestone)
    return sheet.points.flatMap((point, i): SheetQuestion[] => {
      const { temperatureC } = point
      const minutes = sheetMinutes(point, milestone)
      const previousMinutes = timeAtTemperature(before, temperatureC).minutes
      // Where nothing cured before, any time is endlessly faster.
      if (!(minutes * MUCH_FASTER < previousMinutes * (1 - ROUNDING))) return []
      const field = `points[${i}].${FIELD[milestone]}`
      return [{ field, kind: 'muchFaster', milestone, temperatureC, minutes, previousMinutes }]
    })
  })
}

const FIELD = {
  workTime: 'workTimeMinutes',
  handlingStrength: 'handlingTimeMinutes',
  fullCure: 'fullCureMinutes',
} as const satisfies Record<Milestone, string>
