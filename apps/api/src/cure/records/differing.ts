import { message, type Message } from '@clampclock/messages'
import { canonicalJson } from './canonical-json.ts'

/** What an entry says of rows, and what they hold. */
export interface Comparison {
  /** The rows that it tells of: none may be told of by no entry. */
  readonly rows: readonly string[]
  /** A sentence a difference, by table and field. */
  readonly differences: readonly Message[]
}

type Field = readonly [name: string, told: unknown, held: unknown]

/** What the entry doesn't say is compared with nothing: older entries say less. */
export function differing(table: string, fields: readonly Field[]): Message[] {
  return fields.flatMap(([name, told, held]) => {
    if (told === undefined || canonicalJson(told) === canonicalJson(held)) return []
    const where = `${table}.${name}`
    return [message('record-fault.differs', { where, told: shown(told), held: shown(held) })]
  })
}

function shown(value: unknown): string {
  const text = value instanceof Date ? value.toISOString() : canonicalJson(value)
  return text.length > 200 ? `${text.slice(0, 200)}…` : text
}

/** What an entry tells of, by its key, and no table holds. */
export function notInTable(key: string): Comparison {
  return { rows: [key], differences: [message('record-fault.notInTable', { where: key })] }
}
