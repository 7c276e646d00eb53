import { formatMinutes, formatTemperature } from '../../lib/measures.ts'
import type { OvenWindow } from '../../api/types.ts'
import { Table } from '../../ui/table.tsx'
import { figureRows } from './figures.ts'
import styles from './oven.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly window: OvenWindow
  readonly unit: 'C' | 'F'
}

/** The lines of the plot in figures. */
export function OvenFigures({ window, unit }: Props) {
  const degrees = (c: number) => formatTemperature(c, unit)
  return (
    <details className={styles['figures']}>
      <summary>{t('features.theLinesInFigures')}</summary>
      <Table
        caption={t('features.airAndMetalDuringTheBake')}
        rows={figureRows(window.points).map((point, index) => ({ ...point, index }))}
        rowKey={({ index }) => String(index)}
        columns={[
          { head: 'features.after', number: true, cell: ({ atMinutes }) => formatMinutes(atMinutes) },
          { head: 'features.air', number: true, cell: ({ airC }) => degrees(airC) },
          ...window.panels.map(({ name }, panel) => ({
            head: { text: name },
            number: true,
            cell: ({ metalC }: OvenWindow['points'][number]) => degrees(metalC[panel] ?? Number.NaN),
          })),
        ]}
      />
    </details>
  )
}
