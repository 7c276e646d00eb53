import { celsiusToFahrenheit, formatMinutes, formatTemperature } from '@clampclock/quantities'
import {
  CartesianGrid,
  Line,
  LineChart,
  ReferenceArea,
  ReferenceLine,
  ResponsiveContainer,
  Tooltip,
  XAxis,
  YAxis,
} from 'recharts'
import type { OvenWindow } from '../../api/types.ts'
import { PlotFigure } from '../../ui/plot/plot-figure.tsx'
import {
  AXIS,
  GRID,
  lineProps,
  MARK_PATH,
  referenceProps,
  strokeOf,
  TOOLTIP,
  type Mark,
  type Stroke,
} from '../../ui/plot/stroke.ts'
import { roundTicks } from '../../ui/plot/ticks.ts'

interface Props {
  readonly window: OvenWindow
  readonly metalTargetC: number
  readonly unit: 'C' | 'F'
}

type Point = OvenWindow['points'][number]

const AIR: Stroke = { colour: 'var(--quiet-mark)', dash: '6 4' }
const TARGET: Stroke = { colour: 'var(--ink-soft)', width: 1.5, dash: '2 3' }
const RATED: Stroke = { colour: 'var(--danger-mark)', width: 2 }
const VEHICLE: Stroke = { colour: 'var(--danger-mark)', width: 2, dash: '10 4 2 4' }
/** Of the points on a line, one in so many carries its mark. */
const MARK_EVERY = 15

/** Air and the metal of each panel over the minutes of a bake, below what bonds and vehicle bear. */
export default function OvenPlot({ window, metalTargetC, unit }: Props) {
  const shown = (c: number) => (unit === 'F' ? celsiusToFahrenheit(c) : c)
  const degrees = (c: number) => formatTemperature(c, unit, 0)
  const { vehicleC, rated } = window.limits
  const ratedC = [...new Set(rated.map(({ rangeC }) => rangeC.max))]
  const drawn = window.points.flatMap(({ airC, metalC }) => [airC, ...metalC])
  const limits = vehicleC === null ? ratedC : [...ratedC, vehicleC]
  const ticks = roundTicks(shown(Math.min(...drawn)), shown(Math.max(...drawn, ...limits) + 5))
  const [bottom = 0, top = 0] = [ticks[0], ticks.at(-1)]
  return (
    <PlotFigure
      keys={[
        { name: 'Air', stroke: AIR },
        ...window.panels.map(({ name }, index) => ({ name, stroke: strokeOf(index) })),
        { name: `Metal target, ${degrees(metalTargetC)}`, stroke: TARGET },
        ...ratedC.map((c) => ({
          name: `${productsRatedTo(window, c)} rated to ${degrees(c)}`,
          stroke: RATED,
        })),
        ...(vehicleC === null
          ? []
          : [{ name: `Vehicle's own limit, ${degrees(vehicleC)}`, stroke: VEHICLE }]),
      ]}
    >
      <ResponsiveContainer width="100%" height={300}>
        <LineChart
          data={[...window.points]}
          margin={{ top: 8, right: 16, bottom: 0, left: 0 }}
          accessibilityLayer={false}
          aria-hidden
        >
          {ratedC.length > 0 && (
            <ReferenceArea
              y1={shown(Math.min(...ratedC))}
              y2={top}
              fill="var(--danger-fill)"
              fillOpacity={0.7}
            />
          )}
          <CartesianGrid {...GRID} />
          <XAxis
            dataKey="atMinutes"
            type="number"
            domain={['dataMin', 'dataMax']}
            tickFormatter={(minutes: number) => `${Math.round(minutes)} min`}
            {...AXIS}
          />
          <YAxis
            domain={[bottom, top]}
            ticks={[...ticks]}
            tickFormatter={(value: number) => `${Math.round(value)} °${unit}`}
            width={64}
            {...AXIS}
          />
          <Tooltip
            labelFormatter={(minutes) => formatMinutes(Number(minutes))}
            formatter={(value) => `${Number(value).toFixed(1)} °${unit}`}
            {...TOOLTIP}
          />
          <ReferenceLine y={shown(metalTargetC)} {...referenceProps(TARGET)} />
          {ratedC.map((c) => (
            <ReferenceLine key={c} y={shown(c)} {...referenceProps(RATED)} />
          ))}
          {vehicleC !== null && <ReferenceLine y={shown(vehicleC)} {...referenceProps(VEHICLE)} />}
          <Line {...lineProps(AIR)} dataKey={({ airC }: Point) => shown(airC)} name="Air" />
          {window.panels.map(({ name }, index) => (
            <Line
              {...lineProps({ width: 2.5, ...strokeOf(index) })}
              key={name}
              dataKey={({ metalC }: Point) => shown(metalC[index] ?? Number.NaN)}
              name={name}
              dot={(dot: Dot) => <PlotMark key={dot.index} dot={dot} series={index} />}
            />
          ))}
        </LineChart>
      </ResponsiveContainer>
    </PlotFigure>
  )
}

interface Dot {
  readonly cx?: number
  readonly cy?: number
  readonly index?: number
}

/** The marks of the lines lie apart, so that lines on top of one another are seen to be several. */
function PlotMark({
  dot: { cx = 0, cy = 0, index = 0 },
  series,
}: {
  readonly dot: Dot
  readonly series: number
}) {
  const { colour, mark }: { colour: string; mark: Mark } = strokeOf(series)
  if (index % MARK_EVERY !== (4 + series * 4) % MARK_EVERY) return null
  return <path d={MARK_PATH[mark]} transform={`translate(${cx} ${cy})`} fill={colour} stroke="var(--sheet)" />
}

function productsRatedTo({ limits }: OvenWindow, highestC: number): string {
  const own = limits.rated.filter(({ rangeC }) => rangeC.max === highestC).map(({ product }) => product)
  return [...new Set(own)].join(', ')
}
