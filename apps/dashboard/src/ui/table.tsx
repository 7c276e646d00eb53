import { say, type MessageKey } from '@clampclock/messages'
import type { ReactNode } from 'react'
import { Help } from './help/help.tsx'
import { reader } from '../lib/reader.ts'
import type { Term } from './help/terms.ts'
import styles from './table.module.css'

export interface Column<Row> {
  /** Its heading; `text` for one that is made of data. */
  readonly head: MessageKey | { readonly text: string }
  readonly cell: (row: Row) => ReactNode
  readonly number?: boolean
  /** What its heading means stands beside it. */
  readonly explained?: Term
}

interface Props<Row> {
  readonly caption: string
  readonly columns: readonly Column<Row>[]
  readonly rows: readonly Row[]
  readonly rowKey: (row: Row) => string
}

/** A short table; long lists are windowed instead. It scrolls sideways on its own where the screen is narrow. */
export function Table<Row>({ caption, columns, rows, rowKey }: Props<Row>) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex, jsx-a11y/prefer-tag-over-role -- what scrolls must be reachable by keyboard, and is no landmark
    <div className={styles['scroll']} tabIndex={0} role="group" aria-label={caption}>
      <table className={styles['table']} aria-label={caption}>
        <thead>
          <tr>
            {columns.map((column) => (
              <th
                key={headOf(column)}
                scope="col"
                className={column.number === true ? styles['number'] : undefined}
              >
                {headOf(column)}
                {column.explained !== undefined && <Help of={column.explained} name={headOf(column)} />}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={rowKey(row)}>
              {columns.map((column) => (
                <td key={headOf(column)} className={column.number === true ? styles['number'] : undefined}>
                  {column.cell(row)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** The heading of a column in the reader's language. */
export function headOf({ head }: Pick<Column<never>, 'head'>): string {
  return typeof head === 'string' ? say(reader(), { code: head, params: {} }) : head.text
}
