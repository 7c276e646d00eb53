import type { ProblemReason } from '@clampclock/contracts'
import type { SheetQuestion } from '@clampclock/cure'
import { formatMinutes, formatTemperature, type Range } from '@clampclock/quantities'

/** A sheet counts for shops of both units, so each temperature is told in both. */
function degrees(c: number): string {
  return `${formatTemperature(c, 'C')} (${formatTemperature(c, 'F')})`
}

function span({ min, max }: Range): string {
  return `${degrees(min)} to ${degrees(max)}`
}

const TIME = { workTime: 'Work time', handlingStrength: 'Handling time', fullCure: 'Full cure' } as const

function sentence(question: SheetQuestion): string {
  switch (question.kind) {
    case 'fahrenheit':
      return `${formatTemperature(question.valueC, 'C')} reads like °F entered as °C: was ${degrees(question.meantC)} meant?`
    case 'celsius':
      return `${formatTemperature(question.valueC, 'F')} reads like °C entered as °F: was ${degrees(question.meantC)} meant?`
    case 'muchFaster': {
      const { milestone, minutes, temperatureC, previousMinutes } = question
      const before = Number.isFinite(previousMinutes)
        ? `the last revision says ${formatMinutes(previousMinutes)}`
        : 'by the last revision nothing cures there'
      return `${TIME[milestone]} of ${formatMinutes(minutes)} at ${degrees(temperatureC)} is more than twice as fast as before: ${before}`
    }
    case 'handlingInMinutes':
      return `Handling strength after ${formatMinutes(question.minutes)} at ${degrees(question.temperatureC)}: are these hours, not minutes?`
    case 'applicationOutsideShop':
      return `No shop meets an application range of ${span(question.rangeC)}: metal in a shop is at ${span(question.shopC)}`
    case 'noCureInRoom':
      return `Below ${degrees(question.lowestCureC)} nothing cures by this sheet, so nothing does in a room at ${degrees(question.roomC)}`
    case 'cureEndsHot':
      return `The highest temperature for cure is ${degrees(question.highestCureC)}; sheets give ${span(question.usualC)}`
    case 'serviceBelowSun':
      return `The joint is rated to ${degrees(question.maxC)} only: a vehicle in the sun reaches ${degrees(question.sunC)}`
  }
}

const FIGURE: Readonly<Record<string, string>> = {
  temperatureC: 'the temperature',
  workTimeMinutes: 'the work time',
  handlingTimeMinutes: 'the handling time',
  fullCureMinutes: 'the full cure',
  lowestCureC: 'the lowest temperature for cure',
  highestCureC: 'the highest temperature for cure',
  applicationRangeC: 'the application range',
  serviceRangeC: 'the service range',
  points: 'the table of times',
}

/** What the package says against a sheet, with its figures called as a sheet calls them and temperatures in both units. */
export function faultInWords(message: string): string {
  const words = message
    .replaceAll(
      /points\[(\d+)\]\.(\w+)/g,
      (_, i: string, name: string) => `${FIGURE[name] ?? name} in line ${Number(i) + 1}`,
    )
    .replaceAll(/points\[(\d+)\]/g, (_, i: string) => `line ${Number(i) + 1}`)
    .replaceAll(/\b(\w+)(\.(?:min|max))?\b/g, (whole, name: string) => FIGURE[name] ?? whole)
    .replaceAll(/(-?\d+(?:\.\d+)?) to (-?\d+(?:\.\d+)?) degC/g, (_, a: string, b: string) =>
      span({ min: Number(a), max: Number(b) }),
    )
    .replaceAll(/(-?\d+(?:\.\d+)?) degC/g, (_, c: string) => degrees(Number(c)))
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`
}

/** `points[0].temperatureC` of the package as the wire has it: `body.points.0.temperatureC`. */
export function fieldPath(prefix: string, field: string): string {
  return `${prefix}${field.replaceAll(/\[(\d+)\]/g, '.$1')}`
}

/** Each question that nobody has confirmed, as a reason whose code is its kind. */
export function asked(
  questions: readonly SheetQuestion[],
  confirmed: readonly string[],
  fieldPrefix: string,
): ProblemReason[] {
  return questions
    .filter(({ kind }) => !confirmed.includes(kind))
    .map((question) => ({
      code: question.kind,
      field: fieldPath(fieldPrefix, question.field),
      message: sentence(question),
      fix: 'Compare with the printed sheet; confirm it if the sheet says so',
    }))
}
