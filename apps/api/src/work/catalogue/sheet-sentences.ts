import type { ProblemReason } from '@clampclock/contracts'
import type { SheetQuestion } from '@clampclock/cure'
import { message, type Message, type Param } from '@clampclock/messages'
import type { Range } from '@clampclock/quantities'
import { asData, type Rule } from '../../foundation/words/from-text.ts'

/** A sheet counts for shops of both units, so each temperature is told in both. */
function degrees(celsius: number): Param {
  return {
    message: message('sheet.bothUnits', { c: { celsius, unit: 'C' }, f: { celsius, unit: 'F' } }),
  }
}

function span({ min, max }: Range): Param {
  return { message: message('sheet.span', { low: degrees(min), high: degrees(max) }) }
}

function sentence(question: SheetQuestion): Message {
  switch (question.kind) {
    case 'fahrenheit':
      return message('sheet.fahrenheit', {
        value: { celsius: question.valueC, unit: 'C' },
        meant: degrees(question.meantC),
      })
    case 'celsius':
      return message('sheet.celsius', {
        value: { celsius: question.valueC, unit: 'F' },
        meant: degrees(question.meantC),
      })
    case 'muchFaster': {
      const { milestone, minutes, temperatureC, previousMinutes } = question
      const said = {
        what: { message: message('sheet.milestone', { milestone }) },
        time: { minutes },
        temperature: degrees(temperatureC),
      }
      return Number.isFinite(previousMinutes)
        ? message('sheet.muchFaster', { ...said, before: { minutes: previousMinutes } })
        : message('sheet.muchFasterThanNever', said)
    }
    case 'handlingInMinutes':
      return message('sheet.handlingInMinutes', {
        time: { minutes: question.minutes },
        temperature: degrees(question.temperatureC),
      })
    case 'applicationOutsideShop':
      return message('sheet.applicationOutsideShop', {
        range: span(question.rangeC),
        shop: span(question.shopC),
      })
    case 'noCureInRoom':
      return message('sheet.noCureInRoom', {
        lowest: degrees(question.lowestCureC),
        room: degrees(question.roomC),
      })
    case 'cureEndsHot':
      return message('sheet.cureEndsHot', {
        highest: degrees(question.highestCureC),
        usual: span(question.usualC),
      })
    case 'serviceBelowSun':
      return message('sheet.serviceBelowSun', {
        highest: degrees(question.maxC),
        sun: degrees(question.sunC),
      })
  }
}

/** `points[0].temperatureC`, `serviceRangeC.min`, `points.workTimeMinutes` as a sheet calls them. */
function figure(field: string): Param {
  const [, line, ofLine] = /^points\[(\d+)\]\.(\w+)$/.exec(field) ?? []
  return {
    message:
      line !== undefined && ofLine !== undefined
        ? message('sheet.figureInLine', { figure: ofLine, line: Number(line) + 1 })
        : message('sheet.figure', { figure: field.replace(/^points\.|\.(?:min|max)$/g, '') }),
  }
}

const C = (text: string | undefined) => degrees(Number(text))
/** As the sheet prints it. */
const MINUTES = (text: string | undefined): Param => ({
  message: message('field.withUnit', { value: Number(text), unit: 'min' }),
})
const LINE = (text: string | undefined) => Number(text) + 1

const RULES: readonly Rule[] = [
  [
    /^(\S+) is (\S+), but must be (\S+) to (\S+) degC: check the data sheet$/,
    (field, value, low, high) =>
      message('sheet.outside', { figure: figure(field!), value: C(value), low: C(low), high: C(high) }),
  ],
  [
    /^(\S+) runs from (\S+) to (\S+) degC: swap its ends$/,
    (field, low, high) =>
      message('sheet.rangeBackwards', { figure: figure(field!), low: C(low), high: C(high) }),
  ],
  [
    /^lowestCureC \((\S+) degC\) must be below highestCureC \((\S+) degC\)$/,
    (low, high) => message('sheet.lowestAboveHighest', { low: C(low), high: C(high) }),
  ],
  [/^points is empty: /, () => message('sheet.noPoints')],
  [
    /^(\S+) is (\S+), but must be a number of minutes above zero$/,
    (field, value) => message('sheet.notAboveZero', { figure: figure(field!), value: Number(value) }),
  ],
  [
    /^points\[(\d+)\]: work time \((\S+) min\) cannot be longer than handling time \((\S+) min\)$/,
    (line, work, handling) =>
      message('sheet.workLonger', { line: LINE(line), work: MINUTES(work), handling: MINUTES(handling) }),
  ],
  [
    /^points\[(\d+)\]: handling time \((\S+) min\) cannot be longer than full cure \((\S+) min\)$/,
    (line, handling, full) =>
      message('sheet.handlingLonger', {
        line: LINE(line),
        handling: MINUTES(handling),
        full: MINUTES(full),
      }),
  ],
  [
    /^points has (\S+) degC twice: keep one of them$/,
    (value) => message('sheet.temperatureTwice', { value: C(value) }),
  ],
  [
    /^(\S+) does not fall as it gets warmer: (\S+) min at (\S+) degC, (\S+) min at (\S+) degC; check both$/,
    (field, before, cold, after, warm) =>
      message('sheet.doesNotFall', {
        figure: figure(field!),
        before: MINUTES(before),
        cold: C(cold),
        after: MINUTES(after),
        warm: C(warm),
      }),
  ],
  [
    /^(\S+) is (\S+) degC, below lowestCureC \((\S+) degC\), where nothing cures$/,
    (field, value, limit) =>
      message('sheet.belowLowest', { figure: figure(field!), value: C(value), limit: C(limit) }),
  ],
  [
    /^(\S+) is (\S+) degC, above highestCureC \((\S+) degC\): /,
    (field, value, limit) =>
      message('sheet.aboveHighest', { figure: figure(field!), value: C(value), limit: C(limit) }),
  ],
]

/** What the package says against a sheet, with its figures called as a sheet calls them and temperatures in both units. */
export function sheetFault(text: string): Message {
  return asData(text, RULES)
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
      fix: message('setup-problem.compareOrConfirmFix'),
    }))
}
