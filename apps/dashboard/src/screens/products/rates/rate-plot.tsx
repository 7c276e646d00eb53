import { celsiusToFahrenheit } from '@clampclock/quantities'
import { ticks } from 'd3-array'
import { useState } from 'react'
import { formatMinutes } from '../../../lib/measures.ts'
import type { ProductSheet } from '../../../api/types.ts'
import { Dots, Line } from '../../../ui/plot/lines.tsx'
import { PlotFigure } from '../../../ui/plot/plot-figure.tsx'
import { Plot } from '../../../ui/plot/plot.tsx'
import { plotRows, type PlotRow } from './curve-points.ts'
import { minutesRange, minuteTicks, shortMinutes } from './minute-axis.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
}

const SERIES = [
  {
    key: 'fullCure',
    get label() {
      return t('products.fullCure')
    },
    colour: 'var(--quiet-mark)',
  },
  {
    key: 'handlingTime',
    get label() {
      return t('products.handlingStrength')
    },
    colour: 'var(--curing-mark)',
  },
  {
    key: 'workTime',
    get label() {
      return t('products.workTime')
    },
    colour: 'var(--warning-mark)',
  },
] as const

/** Time against temperature through the published points; what is continued beyond them is dashed. */
export function RatePlot({ sheet, unit }: Props) {
  const pointed = useState<number>()
  const rows = plotRows(sheet)
  const range = minutesRange(rows)
  const shown = ({ temperatureC }: PlotRow) =>
    unit === 'F' ? celsiusToFahrenheit(temperatureC) : temperatureC
  const xs = rows.map(shown)
  const [low = 0, high = 0] = [xs[0], xs.at(-1)]
  const degrees = (value: number) => `${Math.round(value)} °${unit}`
  const pointsOf = (name: keyof PlotRow) => rows.map((row) => [shown(row), row[name]] as const)
  return (
    <PlotFigure
      isFramed
      keys={[
        ...SERIES.map(({ label, colour }) => ({ name: label, stroke: { colour, width: 3 } })),
        { name: t('products.dotsPublishedDashedContinuedBeyond') },
      ]}
    >
      <Plot
        heightPx={320}
        leftPx={68}
        x={{ domain: [low, high], ticks: ticks(low, high, 8), format: degrees }}
        y={{
          isLog: true,
          domain: [range.min, range.max],
          ticks: minuteTicks(range.min, range.max),
          format: shortMinutes,
        }}
        pointed={pointed}
        readout={{
          xs,
          title: (index) => degrees(xs[index] ?? 0),
          lines: (index) =>
            SERIES.flatMap(({ key, label, colour }) => {
              const [row] = rows.slice(index)
              const minutes = row?.[key] ?? row?.[`${key}Beyond`]
              if (minutes === undefined) return []
              const name = row?.[key] === undefined ? t('products.continued', { label }) : label
              return [{ name, value: formatMinutes(minutes), stroke: { colour } }]
            }),
        }}
      >
        {(frame) =>
          SERIES.map(({ key, colour }) => (
            <g key={key}>
              <Line frame={frame} points={pointsOf(key)} stroke={{ colour, width: 2.5 }} />
              <Line
                frame={frame}
                points={pointsOf(`${key}Beyond`)}
                stroke={{ colour, width: 1.5, dash: '5 5' }}
              />
              <Dots frame={frame} points={pointsOf(`${key}Point`)} colour={colour} />
            </g>
          ))
        }
      </Plot>
    </PlotFigure>
  )
}
