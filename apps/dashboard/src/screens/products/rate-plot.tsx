import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import { CartesianGrid, Line, LineChart, ResponsiveContainer, Tooltip, XAxis, YAxis } from 'recharts'
import type { ProductSheet } from '../../api/types.ts'
import { plotRows } from './curve-points.ts'
import { minutesRange, minuteTicks, shortMinutes } from './minute-axis.ts'
import styles from './products.module.css'

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
    <figure className={styles['plot']}>
      <ResponsiveContainer width="100%" height={320}>
        <LineChart
          data={[...rows]}
          margin={{ top: 8, right: 16, bottom: 8, left: 8 }}
          accessibilityLayer={false}
          aria-hidden
        >
          <CartesianGrid stroke="var(--line)" />
          <XAxis
            dataKey="temperatureC"
            type="number"
            domain={['dataMin', 'dataMax']}
            tickFormatter={degrees}
            stroke="var(--ink-soft)"
            tickCount={9}
          />
          <YAxis
            scale="log"
            domain={[range.min, range.max]}
            ticks={[...minuteTicks(range.min, range.max)]}
            interval={0}
            tickFormatter={shortMinutes}
            stroke="var(--ink-soft)"
            width={64}
          />
          <Tooltip
            labelFormatter={(label) => degrees(Number(label))}
            formatter={(value) => formatMinutes(Number(value))}
            contentStyle={{
              background: 'var(--sheet)',
              borderColor: 'var(--line-strong)',
              color: 'var(--ink)',
            }}
          />
          {SERIES.flatMap(({ key, label, colour }) => [
            <Line
              key={key}
              dataKey={key}
              name={label}
              stroke={colour}
              strokeWidth={2.5}
              dot={false}
              isAnimationActive={false}
            />,
            <Line
              key={`${key}Beyond`}
              dataKey={`${key}Beyond`}
              name={`${label}, continued`}
              stroke={colour}
              strokeWidth={1.5}
              strokeDasharray="5 5"
              dot={false}
              isAnimationActive={false}
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
      <figcaption>
        {SERIES.map(({ key, label, colour }) => (
          <span key={key}>
            <i style={{ background: colour }} /> {label}
          </span>
        ))}
        <span>Dots: published. Dashed: continued beyond them.</span>
      </figcaption>
    </figure>
  )
}
