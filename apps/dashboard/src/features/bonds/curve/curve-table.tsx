import { t, together } from '../../../lib/reader.ts'
import { formatNumber } from '../../../lib/measures.ts'
import type { BondCurve } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { Table } from '../../../ui/table.tsx'
import { tableRows, type TableRow } from './curve-table-rows.ts'
import styles from './curve.module.css'

interface Props {
  readonly curve: BondCurve
  readonly caption: string
  readonly unit: 'C' | 'F'
  readonly zone: string
  readonly nowMs: number
}

/** The plot in figures. */
export function CurveTable({ curve, caption, unit, zone, nowMs }: Props) {
  const degrees = (value: number | undefined) =>
    value === undefined ? '' : together(`${formatNumber(value, 1)} °${unit}`)
  const percent = (value: number | undefined) =>
    value === undefined ? '' : together(`${Math.floor(Math.max(0, value) + 1e-6)} %`)
  return (
    <Table
      caption={caption}
      rows={tableRows(curve, unit, zone, nowMs).map((row, index) => ({ ...row, index }))}
      rowKey={({ index }) => String(index)}
      columns={[
        {
          head: 'features.when',
          cell: ({ atMs }: TableRow) => (
            <span className={styles['when']}>{formatInstant(new Date(atMs).toISOString(), zone)}</span>
          ),
        },
        { head: 'features.what', cell: ({ what }) => <div className={styles['what']}>{what}</div> },
        { head: 'features.careful', number: true, cell: ({ row }) => percent(row?.progress.conservative) },
        { head: 'features.expected', number: true, cell: ({ row }) => percent(row?.progress.expected) },
        { head: 'features.earliest', number: true, cell: ({ row }) => percent(row?.progress.earliest) },
        {
          head: 'features.metalLowToHigh',
          number: true,
          cell: ({ row }) =>
            row === undefined
              ? ''
              : `${degrees(row.metal)} (${t('lib.range', {
                  from: formatNumber(row.band[0], 1),
                  until: formatNumber(row.band[1], 1),
                })})`,
        },
      ]}
    />
  )
}
