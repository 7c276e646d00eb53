import { message, type Message, type MessageKey, type Param } from '@clampclock/messages'
import { FIELD_PATTERNS } from '@clampclock/messages/all'
import { asData, type Rule } from '../words/from-text.ts'

/** The English of the catalogue is what the contract says: by it, the code is found. */
const WHOLE = new Map(
  Object.entries(FIELD_PATTERNS).flatMap(([code, text]) =>
    /\{/.test(text) ? [] : [[text as string, code as MessageKey]],
  ),
)

const UNITS: Readonly<Record<string, string>> = { 'degC a minute': 'degCaMinute', '%': 'percent' }

const bound = (value: string, unit: string | undefined): Param =>
  unit === undefined
    ? Number(value)
    : { message: message('field.withUnit', { value: Number(value), unit: UNITS[unit] ?? unit }) }

const figure = (text: string): Param => (Number.isSafeInteger(Number(text)) ? Number(text) : text)

/** A list as it came, quoted, such as `"x"|"y"`, without its quotes. */
const listed = (text: string, between: string): Param => ({
  list: text.split(between).map((each) => each.replaceAll(/^["']|["']$/g, '')),
  join: 'plain',
})

const SIGN: Readonly<Record<string, string>> = { '>=': '≥ ', '<=': '≤ ', '>': '> ', '<': '< ' }
const NUMBER = String.raw`(-?[\d.]+(?:e[+-]?\d+)?)`

const RULES: readonly Rule[] = [
  [
    /^must be at most (-?[\d.]+) degC: is it in degF\?$/,
    (most) => message('field.roomAirMost', { most: Number(most) }),
  ],
  [
    /^must be (\{.*\}), or (\{.*\}) where no day is printed$/,
    (date, month) => message('field.dateOrMonth', { date: date!, month: month! }),
  ],
  [
    /^must be at least (-?[\d.]+)(?: ([a-zA-Z% ]+))?$/,
    (value, unit) => message('field.atLeast', { bound: bound(value!, unit) }),
  ],
  [
    /^must be at most (-?[\d.]+)(?: ([a-zA-Z% ]+))?$/,
    (value, unit) => message('field.atMost', { bound: bound(value!, unit) }),
  ],
  [/^must be above (-?[\d.]+)$/, (value) => message('field.above', { bound: Number(value) })],
  [/^must be below (-?[\d.]+)$/, (value) => message('field.below', { bound: Number(value) })],
  // What zod says where the contract says nothing of its own.
  [
    /^Invalid input: expected (\w+), received (\w+)$/,
    (expected, received) => message('field.invalidType', { expected: expected!, received: received! }),
  ],
  [
    /^Invalid option: expected one of (.+)$/,
    (values) => message('field.expectedOneOf', { values: listed(values!, '|') }),
  ],
  [/^Invalid input: expected (.+)$/, (value) => message('field.expected', { value: value! })],
  [
    /^Too small: expected (\w+) to have >=?(\d+) (\w+)$/,
    (origin, least, unit) =>
      message('field.tooSmall', { origin: origin!, least: Number(least), unit: unit! }),
  ],
  [
    /^Too big: expected (\w+) to have <=?(\d+) (\w+)$/,
    (origin, most, unit) => message('field.tooBig', { origin: origin!, most: Number(most), unit: unit! }),
  ],
  [
    new RegExp(`^Too small: expected \\w+ to be (>=?)${NUMBER}$`),
    (sign, least) => message('field.numberTooSmall', { sign: SIGN[sign!]!, least: figure(least!) }),
  ],
  [
    new RegExp(`^Too big: expected \\w+ to be (<=?)${NUMBER}$`),
    (sign, most) => message('field.numberTooBig', { sign: SIGN[sign!]!, most: figure(most!) }),
  ],
  [
    /^Invalid number: must be a multiple of (.+)$/,
    (divisor) => message('field.multipleOf', { divisor: figure(divisor!) }),
  ],
  [
    /^Unrecognized keys?: (.+)$/s,
    (names) =>
      message('field.unrecognizedKeys', {
        keys: names!.split('", "').length,
        names: listed(names!, ', '),
      }),
  ],
  [
    /^Invalid string: must match pattern (.+)$/s,
    (pattern) => message('field.pattern', { pattern: pattern! }),
  ],
  [
    /^Invalid discriminator value\. Expected (.+)$/,
    (values) => message('field.discriminator', { values: listed(values!, ' | ') }),
  ],
  [/^Invalid input$/, () => message('field.invalidInput')],
  [/^Invalid key in (\w+)$/, (where) => message('field.invalidKey', { where: where! })],
  [/^Invalid (?!input$)([\w -]+)$/, (format) => message('field.format', { format: format! })],
]

/**
 * What the contract, or zod, says of a field, as data. A bound is a quantity where the field's name says in what it is given:
 * whoever reads inches is not told millimetres.
 *
 * @param field Path of the field in the request; its last name ends in the unit, `lengthMm`.
 */
export function fieldSentence(text: string, field = ''): Message {
  const code = WHOLE.get(text)
  // No parameters: the pattern has no braces.
  return code === undefined ? withUnit(asData(text, RULES), field) : { code, params: {} }
}

const QUANTITY: readonly (readonly [ending: RegExp, of: (value: number) => Param])[] = [
  [/Mm$/, (millimetres) => ({ millimetres, digits: 1 })],
  [/Ml$/, (millilitres) => ({ millilitres, digits: 1 })],
]

function withUnit({ code, params }: Message, field: string): Message {
  const of = QUANTITY.find(([ending]) => ending.test(field))?.[1]
  if (of === undefined) return { code, params }
  const told = Object.entries(params).map(([name, value]) => [
    name,
    typeof value === 'number' && ['most', 'least', 'bound'].includes(name) ? of(value) : value,
  ])
  return { code, params: Object.fromEntries(told) as Message['params'] }
}
