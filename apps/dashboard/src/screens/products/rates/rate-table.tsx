import { formatMinutes, formatTemperature } from '../../../lib/measures.ts'
import type { ProductSheet } from '../../../api/types.ts'
import { BASIS } from '../../../lib/words.ts'
import { Table } from '../../../ui/table.tsx'
import { pointsAt, tableTemperatures } from './curve-points.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
}

const shown = (minutes: number | null) =>
  minutes === null ? t('products.standsStill') : formatMinutes(minutes)

/** The plot in figures, each with where it comes from. */
export function RateTable({ sheet, unit }: Props) {
  return (
    <Table
      caption={t('products.timesByTemperature')}
      rows={pointsAt(sheet, tableTemperatures(sheet))}
      rowKey={(point) => String(point.temperatureC)}
      columns={[
        {
          head: 'products.metal',
          number: true,
          cell: (point) => formatTemperature(point.temperatureC, unit, 0),
        },
        { head: 'products.workTime', number: true, cell: (point) => shown(point.workTime) },
        { head: 'products.handling', number: true, cell: (point) => shown(point.handlingTime) },
        { head: 'products.fullCure', number: true, cell: (point) => shown(point.fullCure) },
        {
          head: 'products.from',
          cell: (point) => (point.basis === 'dataSheet' ? <strong>{BASIS.dataSheet}</strong> : point.basis),
        },
      ]}
    />
  )
}
