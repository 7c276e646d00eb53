import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import { CartesianGrid, Line, LineChart, ResponsiveContainer, Tooltip, XAxis, YAxis } from 'recharts'
import type { ProductSheet } from '../../api/types.ts'
import { PlotFigure } from '../../ui/plot/plot-figure.tsx'
import { AXIS, GRID, lineProps, TOOLTIP } from '../../ui/plot/stroke.ts'
import { plotRows } from './curve-points.ts'
import { minutesRange, minuteTicks, shortMinutes } from './minute-axis.ts'

interface Props {
  readonly sheet: ProductSheet
  readonly unit: 'C' | 'F'
}

const SERIES = [
  { key: 'fullCure', label: 'Full cure', colour: 'var(--quiet-mark)' },
  { key: 'handlingTime', label: 'Handling strength', colour: 'var(--curing-mark)' },
  { key: 'workTime', label: 'Work time', colour: 'var(--warning-mark)' },
] as const

/** Time against temperature through the published points; what is continued beyond them is dashed. */
export function RatePlot({ sheet, unit }: Props) {
  const rows = plotRows(sheet)
  const range = minutesRange(rows)
  const degrees = (c: number) => formatTemperature(c, unit, 0)
  return (
    <PlotFigure
      isFramed
      keys={[
        ...SERIES.map(({ label, colour }) => ({ name: label, stroke: { colour, width: 3 } })),
        { name: 'Dots: published. Dashed: continued beyond them.' },
      ]}
    >
      <ResponsiveContainer width="100%" height={320}>
        <LineChart
          data={[...rows]}
          margin={{ top: 8, right: 16, bottom: 8, left: 8 }}
          accessibilityLayer={false}
          aria-hidden
        >
          <CartesianGrid {...GRID} />
          <XAxis
            dataKey="temperatureC"
            type="number"
            domain={['dataMin', 'dataMax']}
            tickFormatter={degrees}
            tickCount={9}
            {...AXIS}
          />
          <YAxis
            scale="log"
            domain={[range.min, range.max]}
            ticks={[...minuteTicks(range.min, range.max)]}
            interval={0}
            tickFormatter={shortMinutes}
            width={64}
            {...AXIS}
          />
          <Tooltip
            labelFormatter={(label) => degrees(Number(label))}
            formatter={(value) => formatMinutes(Number(value))}
            {...TOOLTIP}
          />
          {SERIES.flatMap(({ key, label, colour }) => [
            <Line key={key} dataKey={key} name={label} {...lineProps({ colour, width: 2.5 })} />,
            <Line
              key={`${key}Beyond`}
              dataKey={`${key}Beyond`}
              name={`${label}, continued`}
              {...lineProps({ colour, width: 1.5, dash: '5 5' })}
            />,
            <Line
              key={`${key}Point`}
              dataKey={`${key}Point`}
              name={`${label}, published`}
              stroke="none"
              dot={{ r: 5, fill: colour, stroke: 'var(--sheet)', strokeWidth: 1.5 }}
              isAnimationActive={false}
              tooltipType="none"
            />,
          ])}
        </LineChart>
      </ResponsiveContainer>
    </PlotFigure>
  )
}
