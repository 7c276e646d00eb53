import { celsiusToFahrenheit } from '@clampclock/quantities'
import type { ReactNode } from 'react'
import {
  Area,
  CartesianGrid,
  ComposedChart,
  Line,
  ReferenceArea,
  ReferenceDot,
  ReferenceLine,
  ResponsiveContainer,
  Tooltip,
  XAxis,
  YAxis,
} from 'recharts'
import type { BondCurve } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { PlotFigure } from '../../../ui/plot/plot-figure.tsx'
import { AXIS, GRID, lineProps, referenceProps, TOOLTIP, type Stroke } from '../../../ui/plot/stroke.ts'
import { clockTicks, curveRows, tickLabel, type CurveRow } from './curve-rows.ts'
import { EVENT, readyTimes } from './curve-table-rows.ts'

interface Props {
  readonly curve: BondCurve
  readonly unit: 'C' | 'F'
  readonly zone: string
  readonly nowMs: number
  readonly isNarrow: boolean
}

const METAL: Stroke = { colour: 'var(--warning-mark)', width: 2 }
const NOW: Stroke = { colour: 'var(--action)', width: 2 }

const LINES = [
  { line: 'earliest', label: 'Earliest', stroke: { colour: 'var(--quiet-mark)', width: 1.5, dash: '2 4' } },
  { line: 'expected', label: 'Expected', stroke: { colour: 'var(--curing-mark)', width: 1.5, dash: '6 4' } },
  { line: 'conservative', label: 'Careful', stroke: { colour: 'var(--ready-mark)', width: 3 } },
] as const satisfies readonly { line: string; label: string; stroke: Stroke }[]

/** The clamps' events are named on their lines; readings are dots on the metal, and incidents stand in the table. */
const NAMED = new Set<string>(['applied', 'clamped', 'released', 'abandoned'])

/** Above it the lines say nothing more: it is reached. */
const TOP_PERCENT = 110

/** Metal above, progress below, on one axis of time; what is forecast lies on a darker ground. */
export default function CurvePlot({ curve, unit, zone, nowMs, isNarrow }: Props) {
  const rows = curveRows(curve, unit)
  const fromMs = rows[0]?.atMs ?? 0
  const toMs = rows.at(-1)?.atMs ?? 0
  const inSpan = (atMs: number) => atMs >= fromMs && atMs <= toMs
  const asOfMs = Date.parse(curve.asOf)
  const shared = (
    <>
      {inSpan(asOfMs) && asOfMs < toMs && (
        <ReferenceArea x1={asOfMs} x2={toMs} fill="var(--sunk)" fillOpacity={0.6} />
      )}
      <CartesianGrid {...GRID} />
      <XAxis
        dataKey="atMs"
        type="number"
        scale="linear"
        domain={[fromMs, toMs]}
        ticks={[...clockTicks(fromMs, toMs, zone, isNarrow ? 4 : 8)]}
        tickFormatter={(atMs: number) => tickLabel(atMs, zone)}
        {...AXIS}
      />
      <Tooltip
        labelFormatter={(atMs) => formatInstant(new Date(Number(atMs)).toISOString(), zone)}
        formatter={(value) => shown(value)}
        {...TOOLTIP}
      />
      {inSpan(nowMs) && <ReferenceLine x={nowMs} {...referenceProps(NOW)} />}
    </>
  )
  const happened = curve.events.filter(({ kind, at }) => NAMED.has(kind) && inSpan(Date.parse(at)))
  return (
    <PlotFigure
      keys={[
        { name: 'Metal, in its band; dots: measured', stroke: METAL },
        ...LINES.map(({ label, stroke }) => ({ name: label, stroke })),
        { name: 'Dots at 100 %: handling strength reached' },
        { name: 'Now; the darker ground is forecast', stroke: NOW },
      ]}
    >
      <Panel rows={rows} heightPx={170}>
        {shared}
        <YAxis
          domain={['auto', 'auto']}
          tickFormatter={(value: number) => `${Math.round(value)} °${unit}`}
          width={58}
          {...AXIS}
        />
        <Area
          dataKey="band"
          name="Metal, low to high"
          stroke="none"
          fill="var(--warning-mark)"
          fillOpacity={0.3}
          isAnimationActive={false}
        />
        <Line dataKey="metal" name="Metal, expected" {...lineProps(METAL)} />
        {curve.events.map(({ kind, at, temperatureC }) =>
          kind === 'reading' && temperatureC !== null && inSpan(Date.parse(at)) ? (
            <ReferenceDot
              key={at}
              x={Date.parse(at)}
              y={unit === 'F' ? celsiusToFahrenheit(temperatureC) : temperatureC}
              r={4.5}
              fill="var(--ink)"
              stroke="var(--sheet)"
            />
          ) : null,
        )}
      </Panel>
      <Panel rows={rows} heightPx={230}>
        {shared}
        <YAxis
          domain={[0, TOP_PERCENT]}
          allowDataOverflow
          ticks={[0, 25, 50, 75, 100]}
          tickFormatter={(value: number) => `${value} %`}
          width={58}
          {...AXIS}
        />
        <ReferenceLine y={100} stroke="var(--ink)" strokeWidth={1.5} />
        {LINES.map(({ line, label, stroke }) => (
          <Line
            key={line}
            dataKey={(row: CurveRow) => row.progress[line]}
            name={label}
            {...lineProps(stroke)}
          />
        ))}
        {happened.map(({ kind, at }, index) => (
          <ReferenceLine
            key={`${kind}-${at}`}
            x={Date.parse(at)}
            stroke="var(--line-strong)"
            strokeDasharray="3 3"
            label={{
              value: EVENT[kind],
              // Towards the middle, and one below the other: applied and clamped lie close together.
              position: Date.parse(at) > (fromMs + toMs) / 2 ? 'insideTopRight' : 'insideTopLeft',
              dy: 22 + index * 17,
              fill: 'var(--ink)',
              fontSize: 13,
            }}
          />
        ))}
        {readyTimes(curve).map(({ line, atMs }) =>
          inSpan(atMs) ? (
            <ReferenceDot
              key={line}
              x={atMs}
              y={100}
              r={5}
              fill={LINES.find((one) => one.line === line)?.stroke.colour ?? 'var(--ink)'}
              stroke="var(--sheet)"
            />
          ) : null,
        )}
      </Panel>
    </PlotFigure>
  )
}

interface PanelProps {
  readonly rows: readonly CurveRow[]
  readonly heightPx: number
  readonly children: ReactNode
}

function Panel({ rows, heightPx, children }: PanelProps) {
  return (
    <ResponsiveContainer width="100%" height={heightPx}>
      <ComposedChart
        data={[...rows]}
        syncId="bond"
        margin={{ top: 8, right: 16, bottom: 0, left: 0 }}
        accessibilityLayer={false}
        aria-hidden
      >
        {children}
      </ComposedChart>
    </ResponsiveContainer>
  )
}

/** One figure or the two ends of a band. */
function shown(value: unknown): string {
  if (Array.isArray(value)) return value.map((end) => Number(end).toFixed(1)).join(' to ')
  return Number(value).toFixed(1)
}
