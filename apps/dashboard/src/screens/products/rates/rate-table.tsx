import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import type { ProductSheet } from '../../../api/types.ts'
import { BASIS } from '../../../lib/words.ts'
import { Table } from '../../../ui/table.tsx'
import { pointsAt, tableTemperatures } from './curve-points.ts'

interface Props {
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
}

const shown = (minutes: number | null) => (minutes === null ? 'stands still' : formatMinutes(minutes))

/** The plot in figures, each with where it comes from. */
export function RateTable({ sheet, unit }: Props) {
  return (
    <Table
      caption="Times by temperature"
      rows={pointsAt(sheet, tableTemperatures(sheet))}
      rowKey={(point) => String(point.temperatureC)}
      columns={[
        { head: 'Metal', number: true, cell: (point) => formatTemperature(point.temperatureC, unit, 0) },
        { head: 'Work time', number: true, cell: (point) => shown(point.workTime) },
        { head: 'Handling', number: true, cell: (point) => shown(point.handlingTime) },
        { head: 'Full cure', number: true, cell: (point) => shown(point.fullCure) },
        {
          head: 'From',
          cell: (point) => (point.basis === 'dataSheet' ? <strong>{BASIS.dataSheet}</strong> : point.basis),
        },
      ]}
    />
  )
}
