import { say, type Reader } from '@clampclock/messages'
import { stringify } from 'csv-stringify/sync'

/**
 * A table as CSV (RFC 4180) with a heading, in UTF-8 with a byte order mark, so that spreadsheets read its letters. Cells
 * that a spreadsheet would run as a formula are disarmed.
 *
 * @param columns Heading of each key, in order.
 */
export function toCsv<Row extends object>(
  rows: readonly Row[],
  columns: Readonly<Partial<Record<keyof Row & string, string>>>,
): Uint8Array {
  const text = stringify([...rows], {
    bom: true,
    columns: columns as Record<string, string>,
    escape_formulas: true,
    header: true,
    record_delimiter: 'windows',
    cast: { date: (value) => value.toISOString() },
  })
  return Buffer.from(text, 'utf8')
}

/** The heading of each column in the reader's language, in order. */
export function headings<const Column extends string>(
  reader: Reader,
  columns: readonly Column[],
): Record<Column, string> {
  return Object.fromEntries(
    columns.map((column) => [column, say(reader, 'csv.column', { column })]),
  ) as Record<Column, string>
}
