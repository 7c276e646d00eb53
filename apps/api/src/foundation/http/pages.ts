import { message } from '@clampclock/messages'
import { invalidField } from '../problems/problem-error.ts'

/** A cursor is the sort key of the last row, packed so that clients don't take it apart. */
function packCursor(key: readonly (string | number)[]): string {
  return Buffer.from(JSON.stringify(key)).toString('base64url')
}

/** @throws {ProblemError} When it is not a cursor of a page of this list. */
export function unpackCursor(cursor: string, length: number): (string | number)[] {
  try {
    const key: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'))
    const whole =
      Array.isArray(key) &&
      key.length === length &&
      key.every((part) => typeof part === 'string' || typeof part === 'number')
    if (whole) return key as (string | number)[]
  } catch {
    // Falls through to the same refusal: the caller cannot tell a bad letter from a bad key.
  }
  throw invalidField('query.cursor', message('problem.badCursor'), message('problem.nextCursorFix'))
}

/** Cuts rows read one beyond the limit to a page. */
export function toPage<Row, Item>(
  rows: readonly Row[],
  limit: number,
  toItem: (row: Row) => Item,
  keyOf: (row: Row) => readonly (string | number)[],
): { items: Item[]; nextCursor: string | null } {
  const page = rows.slice(0, limit)
  const last = page.at(-1)
  return {
    items: page.map(toItem),
    nextCursor: rows.length > limit && last !== undefined ? packCursor(keyOf(last)) : null,
  }
}
