import { celsiusToFahrenheit, formatMinutes, formatTemperature } from '@clampclock/quantities'
import {
  CartesianGrid,
  Line,
  LineChart,
  ReferenceLine,
  ResponsiveContainer,
  Tooltip,
  XAxis,
  YAxis,
} from 'recharts'
import type { OvenWindow } from '../../../api/types.ts'
import styles from '../../../features/bonds/curve/curve.module.css'

interface Props {
  readonly window: OvenWindow
  readonly limitC: number | undefined
  readonly unit: 'C' | 'F'
}

type Point = OvenWindow['points'][number]

/** Air and metal over the minutes of a bake, below what vehicle and bonds are rated to. */
export default function OvenPlot({ window, limitC, unit }: Props) {
  const shown = (c: number) => (unit === 'F' ? celsiusToFahrenheit(c) : c)
  const airs = window.points.map(({ airC }) => airC)
  const top = shown(Math.max(...airs, limitC ?? -Infinity) + 5)
  const line = { dot: false, isAnimationActive: false } as const
  return (
    <figure className={styles['plot']}>
      <ResponsiveContainer width="100%" height={260}>
        <LineChart
          data={[...window.points]}
          margin={{ top: 8, right: 16, bottom: 0, left: 0 }}
          accessibilityLayer={false}
          aria-hidden
        >
          <CartesianGrid stroke="var(--line)" />
          <XAxis
            dataKey="atMinutes"
            type="number"
            domain={['dataMin', 'dataMax']}
            tickFormatter={(minutes: number) => `${Math.round(minutes)} min`}
            stroke="var(--ink-soft)"
          />
          <YAxis
            domain={['auto', Math.ceil(top / 10) * 10]}
            tickFormatter={(value: number) => `${Math.round(value)} °${unit}`}
            stroke="var(--ink-soft)"
            width={58}
          />
          <Tooltip
            labelFormatter={(minutes) => formatMinutes(Number(minutes))}
            formatter={(value) => `${Number(value).toFixed(1)} °${unit}`}
            contentStyle={{
              background: 'var(--sheet)',
              borderColor: 'var(--line-strong)',
              color: 'var(--ink)',
            }}
          />
          {limitC !== undefined && (
            <ReferenceLine y={shown(limitC)} stroke="var(--danger-mark)" strokeWidth={2} />
          )}
          <Line
            {...line}
            dataKey={({ airC }: Point) => shown(airC)}
            name="Air"
            stroke="var(--quiet-mark)"
            strokeWidth={2}
            strokeDasharray="6 4"
          />
          {window.panels.map(({ name }, index) => (
            <Line
              {...line}
              key={name}
              dataKey={({ metalC }: Point) => shown(metalC[index] ?? Number.NaN)}
              name={name}
              stroke="var(--warning-mark)"
              strokeWidth={2.5}
            />
          ))}
        </LineChart>
      </ResponsiveContainer>
      <figcaption>
        <span>
          <i style={{ borderTopColor: 'var(--quiet-mark)', borderTopStyle: 'dashed' }} /> Air
        </span>
        <span>
          <i style={{ borderTopColor: 'var(--warning-mark)' }} /> Metal of each panel
        </span>
        {limitC !== undefined && (
          <span>
            <i style={{ borderTopColor: 'var(--danger-mark)' }} /> Rated to{' '}
            {formatTemperature(limitC, unit, 0)}
          </span>
        )}
      </figcaption>
    </figure>
  )
}
