import * as z from 'zod'
import type { Database, Value } from './database.ts'

/** One SELECT, and what a row of it is. */
export interface Read<Row> {
  readonly text: string
  readonly row: z.ZodType<Row>
}

/**
 * A SELECT whose columns are named once: the compiler holds them against `row`, so that one which is missing or left over
 * fails `npm run check`. What they hold, the tests hold against `row` (`checkEveryRow`); a request doesn't pay for it.
 *
 * PostgreSQL makes the JSON, so that the embedded database and a server tell numbers, instants and nulls alike.
 *
 * @param columns The SQL of each column, by its name.
 * @param from What follows, from FROM on; its values are $1, $2 …
 */
export function defineRead<Row extends object>(
  row: z.ZodType<Row>,
  columns: { readonly [Column in keyof Required<Row>]: string },
  from: string,
): Read<Row> {
  const select = Object.entries<string>(columns).map(([name, sql]) => `${sql} as "${name}"`)
  return {
    row,
    text: `select coalesce(json_agg(t), '[]')::text as answer from (select ${select.join(', ')} ${from}) t`,
  }
}

let isEachChecked = false

/** From now on a row that isn't what its schema says is an error: for tests. */
export function checkEveryRow(): void {
  isEachChecked = true
}

/** Reads as the role that sees this chain only; the settings and the question travel together. */
export async function readInChain<Row>(
  database: Database,
  organizationId: string,
  read: Read<Row>,
  values: readonly Value[],
): Promise<Row[]> {
  return rowsOf(read, await database.askInChain(organizationId, read.text, values))
}

/** Reads as the owner of the tables, of whatever chain: only for what has to be known before a chain is. */
export async function readBeforeChain<Row>(
  database: Database,
  read: Read<Row>,
  values: readonly Value[],
): Promise<Row[]> {
  return rowsOf(read, await database.ask(read.text, values))
}

function rowsOf<Row>({ row, text }: Read<Row>, answer: string): Row[] {
  const rows = JSON.parse(answer) as Row[]
  if (!isEachChecked) return rows
  const checked = z.array(row).safeParse(rows)
  if (!checked.success) throw new Error(`${z.prettifyError(checked.error)}\nin ${text}`)
  return rows
}

/** An instant as PostgreSQL's JSON has it. */
export const instant = z.iso.datetime({ offset: true })
