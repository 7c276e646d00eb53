import {
  Label,
  Note,
  PanelMaterial,
  Plate,
  Priority,
  SafetyClass,
  Vin,
  type ProblemReason,
} from '@clampclock/contracts'
import { PLAUSIBLE_TEMPERATURE_C } from '@clampclock/quantities'
import { message, type Message, type Param } from '@clampclock/messages'
import { fieldSentence } from '../../foundation/http/field-words.ts'
import { asTold } from '../../foundation/words/from-text.ts'
import { CsvError, parse } from 'csv-parse/sync'
import { DateTime } from 'luxon'
import * as z from 'zod'

/** One joint of the table, or a vehicle without one. */
const Row = z.strictObject({
  number: Label.max(40, 'must be at most 40 characters'),
  vehicle: Label,
  plate: optional(Plate),
  vin: optional(Vin),
  promisedAt: optional(z.string()),
  priority: optional(Priority),
  ovenLimitC: optional(number(PLAUSIBLE_TEMPERATURE_C.min, PLAUSIBLE_TEMPERATURE_C.max)),
  note: optional(Note),
  joint: optional(Label),
  product: optional(z.string()),
  panelMaterial: optional(PanelMaterial),
  panelThicknessMm: optional(number(0.3, 10)),
  safetyClass: optional(SafetyClass),
  lengthMm: optional(number(1, 20_000)),
  flangeWidthMm: optional(number(1, 200)),
  beadDiameterMm: optional(number(0.1, 20)),
  template: optional(z.string()),
})

const OF_A_JOINT = [
  'product',
  'panelMaterial',
  'panelThicknessMm',
  'safetyClass',
  'lengthMm',
  'flangeWidthMm',
  'beadDiameterMm',
] as const

export type JointLine = {
  readonly [Key in (typeof OF_A_JOINT)[number]]: NonNullable<z.output<typeof Row>[Key]>
} & {
  readonly line: number
  readonly name: string
}

export interface ImportedOrder {
  readonly line: number
  readonly number: string
  readonly vehicle: string
  readonly plate: string | null
  readonly vin: string | null
  readonly promisedAt: Date | null
  readonly priority: z.output<typeof Priority>
  readonly ovenLimitC: number | null
  readonly note: string
  readonly joints: readonly JointLine[]
  /** Template of each joint by its name, or of the vehicle under the empty name. */
  readonly templates: readonly { readonly line: number; readonly joint: string; readonly key: string }[]
}

/** What a line calls by name, whatever else is wrong with it; empty where it names none. */
export interface NamedOnLine {
  readonly line: number
  readonly number: string
  readonly product: string
  readonly template: string
}

export interface ReadTable {
  readonly orders: readonly ImportedOrder[]
  readonly names: readonly NamedOnLine[]
  /** Every fault, each with its line; `orders` is of no use when there is one. */
  readonly faults: readonly ProblemReason[]
}

const MOST_LINES = 2000

/** Reads a table of repair orders. A time without an offset is one of the shop's clock. */
export function readImportTable(csv: string, timeZone: string): ReadTable {
  const faults: ProblemReason[] = []
  const fault: Fault = (line, what, fix) => {
    faults.push({
      code: 'csv',
      field: 'body.csv',
      message: message('problem.line', { line, what: { message: what } }),
      ...(fix ? { fix } : {}),
    })
  }
  const records = recordsOf(csv, fault)
  const orders = new Map<string, ImportedOrder>()
  if (records.length === 0 && faults.length === 0)
    fault(1, message('plan-problem.noOrders'), message('plan-problem.headerFix'))
  if (records.length > MOST_LINES)
    fault(
      MOST_LINES + 2,
      message('plan-problem.manyLines', { most: MOST_LINES }),
      message('problem.inPartsFix'),
    )
  for (const { line, record } of records.slice(0, MOST_LINES)) {
    const read = Row.safeParse(record)
    if (!read.success) {
      for (const { path, message: text, code } of read.error.issues) {
        const what = fieldSentence(text)
        fault(
          line,
          code === 'unrecognized_keys'
            ? what
            : message('problem.namedWhat', { name: path.join('.'), what: { message: what } }),
        )
      }
      continue
    }
    const row = read.data
    const promisedAt = row.promisedAt === null ? null : instantOf(row.promisedAt, timeZone)
    if (promisedAt === undefined)
      fault(
        line,
        message('plan-problem.noTime', { text: row.promisedAt ?? '' }),
        message('plan-problem.writeTimeFix'),
      )
    const joint = jointOf(line, row, fault)
    const known = orders.get(row.number)
    if (known && known.vehicle !== row.vehicle)
      fault(
        line,
        message('plan-problem.otherVehicle', {
          number: row.number,
          vehicle: known.vehicle,
          line: known.line,
        }),
      )
    // Only the first line of a number has to give them; another line may not name another vehicle.
    for (const key of ['plate', 'vin'] as const)
      if (known && row[key] !== null && row[key] !== known[key])
        fault(line, otherMark(row.number, key, known[key], known.line))
    if (joint && known?.joints.some(({ name }) => name === joint.name))
      fault(line, message('plan-problem.jointTwice', { number: row.number, joint: joint.name }))
    const { number, vehicle, plate, vin, priority, ovenLimitC, note, template } = row
    const head = known ?? {
      line,
      number,
      vehicle,
      plate,
      vin,
      promisedAt: promisedAt ?? null,
      priority: priority ?? 'normal',
      ovenLimitC,
      note: note ?? '',
      joints: [],
      templates: [],
    }
    orders.set(number, {
      ...head,
      joints: joint ? [...head.joints, joint] : head.joints,
      templates:
        template === null
          ? head.templates
          : [...head.templates, { line, joint: joint?.name ?? '', key: template }],
    })
  }
  const names = records.slice(0, MOST_LINES).map(({ line, record }) => ({
    line,
    number: record['number'] ?? '',
    product: record['product'] ?? '',
    template: record['template'] ?? '',
  }))
  return { orders: [...orders.values()], names, faults }
}

type Fault = (line: number, what: Message, fix?: Message) => void

const plainList = (list: readonly string[]): Param => ({ list, join: 'plain' })

function otherMark(number: string, key: string, value: string | null, line: number): Message {
  return value === null
    ? message('plan-problem.otherMarkNone', { number, key, line })
    : message('plan-problem.otherMark', { number, key, value, line })
}

function recordsOf(csv: string, fault: Fault): { line: number; record: Readonly<Record<string, string>> }[] {
  try {
    const rows = parse(csv, {
      columns: true,
      bom: true,
      trim: true,
      skip_empty_lines: true,
      info: true,
    }) as unknown as {
      record: Record<string, string>
      info: { lines: number }
    }[]
    return rows.map(({ record, info }) => ({ record, line: info.lines }))
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    fault(Number(error['lines'] ?? 1), asTold(error.message))
    return []
  }
}

function jointOf(line: number, row: z.output<typeof Row>, fault: Fault): JointLine | undefined {
  if (row.joint === null) {
    const given = OF_A_JOINT.filter((name) => row[name] !== null)
    if (given.length > 0)
      fault(
        line,
        message('plan-problem.withoutJoint', { given: plainList(given) }),
        message('plan-problem.nameJointFix'),
      )
    return undefined
  }
  const missing = OF_A_JOINT.filter((name) => row[name] === null)
  if (missing.length > 0)
    fault(line, message('plan-problem.jointNeeds', { joint: row.joint, missing: plainList(missing) }))
  return { ...(row as Omit<JointLine, 'line' | 'name'>), line, name: row.joint }
}

function instantOf(text: string, zone: string): Date | undefined {
  const at = DateTime.fromISO(text, { zone })
  return at.isValid && text.includes('T') ? at.toJSDate() : undefined
}

/** An empty cell, and a column that isn't there, are nothing. */
function optional<Output>(inner: z.ZodType<Output, string>) {
  return z
    .string()
    .optional()
    .transform((text) => (text === undefined || text === '' ? null : text))
    .pipe(inner.nullable())
}

function number(min: number, max: number) {
  return z
    .string()
    .transform(Number)
    .pipe(z.number('must be a number').min(min, `must be at least ${min}`).max(max, `must be at most ${max}`))
}
