import { celsiusToFahrenheit } from '@clampclock/quantities'
import { ticks as ticksBetween } from 'd3-array'
import { useState } from 'react'
import { formatMinutes, formatTemperature, formatNumber } from '../../lib/measures.ts'
import type { OvenWindow } from '../../api/types.ts'
import { LevelLine, Line, Marks } from '../../ui/plot/lines.tsx'
import { PlotFigure } from '../../ui/plot/plot-figure.tsx'
import { Plot } from '../../ui/plot/plot.tsx'
import { strokeOf, type Stroke } from '../../ui/plot/stroke.ts'
import { roundTicks } from '../../ui/plot/ticks.ts'
import { t, together } from '../../lib/reader.ts'

interface Props {
  readonly window: OvenWindow
  readonly metalTargetC: number
  readonly unit: 'C' | 'F'
}

const AIR: Stroke = { colour: 'var(--quiet-mark)', dash: '6 4' }
const TARGET: Stroke = { colour: 'var(--ink-soft)', width: 1.5, dash: '2 3' }
const RATED: Stroke = { colour: 'var(--danger-mark)', width: 2 }
const VEHICLE: Stroke = { colour: 'var(--danger-mark)', width: 2, dash: '10 4 2 4' }
/** Of the points on a line, one in so many carries its mark. */
const MARK_EVERY = 15

/** Air and the metal of each panel over the minutes of a bake, below what bonds and vehicle bear. */
export default function OvenPlot({ window, metalTargetC, unit }: Props) {
  const pointed = useState<number>()
  const shown = (c: number) => (unit === 'F' ? celsiusToFahrenheit(c) : c)
  const degreesOf = (c: number | undefined) => (c === undefined ? undefined : shown(c))
  const value = (degree: number | undefined) =>
    degree === undefined ? '' : together(`${formatNumber(degree, 1)} °${unit}`)
  const degrees = (c: number) => formatTemperature(c, unit, 0)
  const { vehicleC, rated } = window.limits
  const ratedC = [...new Set(rated.map(({ rangeC }) => rangeC.max))]
  const drawn = window.points.flatMap(({ airC, metalC }) => [airC, ...metalC])
  const limits = vehicleC === null ? ratedC : [...ratedC, vehicleC]
  const ticks = roundTicks(shown(Math.min(...drawn)), shown(Math.max(...drawn, ...limits) + 5))
  const [bottom = 0, top = 0] = [ticks[0], ticks.at(-1)]
  const xs = window.points.map(({ atMinutes }) => atMinutes)
  const [from = 0, to = 0] = [xs[0], xs.at(-1)]
  const air = window.points.map(({ atMinutes, airC }) => [atMinutes, shown(airC)] as const)
  const metal = window.panels.map(({ name }, index) => ({
    name,
    stroke: { width: 2.5, ...strokeOf(index) },
    points: window.points.map(({ atMinutes, metalC }) => [atMinutes, degreesOf(metalC[index])] as const),
  }))
  return (
    <PlotFigure
      keys={[
        { name: t('features.air'), stroke: AIR },
        ...window.panels.map(({ name }, index) => ({ name, stroke: strokeOf(index) })),
        { name: t('features.metalTargetOf', { metalTarget: degrees(metalTargetC) }), stroke: TARGET },
        ...ratedC.map((c) => ({
          name: t('features.ratedTo', { window: productsRatedTo(window, c), c: degrees(c) }),
          stroke: RATED,
        })),
        ...(vehicleC === null
          ? []
          : [{ name: t('features.vehiclesOwnLimit', { vehicleC: degrees(vehicleC) }), stroke: VEHICLE }]),
      ]}
    >
      <Plot
        heightPx={300}
        leftPx={64}
        x={{
          domain: [from, to],
          ticks: ticksBetween(from, to, 6),
          format: (minutes) => t('features.min', { minutes: Math.round(minutes) }),
        }}
        y={{ domain: [bottom, top], ticks, format: (degree) => `${Math.round(degree)} °${unit}` }}
        pointed={pointed}
        readout={{
          xs,
          title: (index) => formatMinutes(xs[index] ?? 0),
          lines: (index) => [
            { name: t('features.air'), value: value(air[index]?.[1]), stroke: AIR },
            ...metal.map(({ name, stroke, points }) => ({ name, value: value(points[index]?.[1]), stroke })),
          ],
        }}
        ground={({ y, left, right }) =>
          ratedC.length > 0 && (
            <rect
              x={left}
              width={right - left}
              y={y(top)}
              height={Math.max(0, y(shown(Math.min(...ratedC))) - y(top))}
              fill="var(--danger-fill)"
              fillOpacity={0.7}
            />
          )
        }
      >
        {(frame) => (
          <>
            <LevelLine frame={frame} at={shown(metalTargetC)} stroke={TARGET} />
            {ratedC.map((c) => (
              <LevelLine key={c} frame={frame} at={shown(c)} stroke={RATED} />
            ))}
            {vehicleC !== null && <LevelLine frame={frame} at={shown(vehicleC)} stroke={VEHICLE} />}
            <Line frame={frame} points={air} stroke={AIR} />
            {metal.map(({ name, stroke, points }, series) => (
              <g key={name}>
                <Line frame={frame} points={points} stroke={stroke} />
                <Marks frame={frame} points={points.filter(isMarked(series))} stroke={stroke} />
              </g>
            ))}
          </>
        )}
      </Plot>
    </PlotFigure>
  )
}

/** The marks of the lines lie apart, so that lines on top of one another are seen to be several. */
function isMarked(series: number) {
  return (_point: unknown, index: number) => index % MARK_EVERY === (4 + series * 4) % MARK_EVERY
}

function productsRatedTo({ limits }: OvenWindow, highestC: number): string {
  const own = limits.rated.filter(({ rangeC }) => rangeC.max === highestC).map(({ product }) => product)
  return [...new Set(own)].join(', ')
}
