import { type TemperatureUnit } from '@clampclock/quantities'
import { formatMinutes, formatTemperature } from '../../../lib/measures.ts'
import type { ProductSheet } from '../../../api/types.ts'
import { pointsAt } from '../rates/curve-points.ts'
import { t } from '../../../lib/reader.ts'

/** One figure of a proposed revision beside what counts now. */
export interface SheetChange {
  readonly what: string
  /** null: there is nothing to compare with. */
  readonly before: string | null
  readonly after: string
  readonly tone: 'faster' | 'slower' | 'same' | 'other'
}

const TIMES = [
  ['products.workTime', 'workTime', 'workTimeMinutes'],
  ['products.handlingStrength', 'handlingTime', 'handlingTimeMinutes'],
  ['products.fullCure', 'fullCure', 'fullCureMinutes'],
] as const

/** What is within a minute's rounding of the curve is the same. */
const SAME = 1e-6
/** Closer than this two temperatures are one, degC: a sheet in degF is converted. */
const SAME_C = 0.05

/**
 * Every figure of a proposed revision, the published points first, beside what counts now: at a temperature that the
 * sheet before does not publish, by its curve.
 */
export function sheetChanges(
  proposed: ProductSheet,
  current: ProductSheet | null,
  unit: TemperatureUnit,
): readonly SheetChange[] {
  const before =
    current &&
    pointsAt(
      current,
      proposed.points.map(({ temperatureC }) => temperatureC),
    )
  const times = proposed.points.flatMap((point, index) =>
    TIMES.map(([name, curve, field]): SheetChange => {
      const was = before?.[index]?.[curve] ?? null
      return {
        what: t('products.at', { time: t(name), temperature: formatTemperature(point.temperatureC, unit) }),
        before: before ? (was === null ? t('products.noCureThere') : formatMinutes(was)) : null,
        after: formatMinutes(point[field]),
        tone: before ? toneOf(was ?? Number.POSITIVE_INFINITY, point[field]) : 'other',
      }
    }),
  )
  const left = current?.points.filter(
    (point) =>
      !proposed.points.some(({ temperatureC }) => Math.abs(temperatureC - point.temperatureC) < SAME_C),
  )
  const leftOut = left?.flatMap((point, index) => {
    const curve = pointsAt(
      proposed,
      left.map(({ temperatureC }) => temperatureC),
    )[index]
    return TIMES.map(([name, line, field]): SheetChange => {
      const is = curve?.[line] ?? null
      return {
        what: t('products.at', { time: t(name), temperature: formatTemperature(point.temperatureC, unit) }),
        before: formatMinutes(point[field]),
        after: t('products.leftOut', {
          is: is === null ? t('products.noCureThere') : t('products.byItsCurve', { is: formatMinutes(is) }),
        }),
        tone: is === null ? 'slower' : toneOf(point[field], is, 'other'),
      }
    })
  })
  const limits = limitsOf(proposed, unit).map(([what, after], index): SheetChange => {
    const was = current ? (limitsOf(current, unit)[index]?.[1] ?? null) : null
    return { what, before: was, after, tone: was === after ? 'same' : 'other' }
  })
  return [...times, ...(leftOut ?? []), ...limits]
}

function toneOf(before: number, after: number, same: 'same' | 'other' = 'same'): SheetChange['tone'] {
  if (Math.abs(after - before) <= SAME * after) return same
  return after < before ? 'faster' : 'slower'
}

function limitsOf(sheet: ProductSheet, unit: TemperatureUnit): readonly (readonly [string, string])[] {
  const range = ({ min, max }: { min: number; max: number }) =>
    t('lib.range', { from: formatTemperature(min, unit), until: formatTemperature(max, unit) })
  return [
    [t('products.metalAtApplication'), range(sheet.applicationRangeC)],
    [t('products.curesAtAllFrom'), formatTemperature(sheet.lowestCureC, unit)],
    [t('products.noMoreCreditForHeatAbove'), formatTemperature(sheet.highestCureC, unit)],
    [t('products.serviceRangeWhenCured'), range(sheet.serviceRangeC)],
  ]
}
