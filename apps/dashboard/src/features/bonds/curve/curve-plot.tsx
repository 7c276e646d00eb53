import { celsiusToFahrenheit } from '@clampclock/quantities'
import { useState } from 'react'
import { formatNumber } from '../../../lib/measures.ts'
import type { BondCurve } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { Band, Dots, LevelLine, Line, UprightLine } from '../../../ui/plot/lines.tsx'
import { PlotFigure } from '../../../ui/plot/plot-figure.tsx'
import type { Frame } from '../../../ui/plot/frame.ts'
import { Plot } from '../../../ui/plot/plot.tsx'
import type { Stroke } from '../../../ui/plot/stroke.ts'
import { roundTicks } from '../../../ui/plot/ticks.ts'
import type { TipLine } from '../../../ui/plot/tip.tsx'
import { clockTicks, curveRows, tickLabel, type CurveRow } from './curve-rows.ts'
import { EVENT, readyTimes } from './curve-table-rows.ts'
import { t, together } from '../../../lib/reader.ts'

interface Props {
  readonly curve: BondCurve
  readonly unit: 'C' | 'F'
  readonly zone: string
  readonly nowMs: number
  readonly isNarrow: boolean
}

const METAL: Stroke = { colour: 'var(--warning-mark)', width: 2 }
const NOW: Stroke = { colour: 'var(--action)', width: 2 }
const REACHED: Stroke = { colour: 'var(--ink)', width: 1.5 }
const EVENT_LINE: Stroke = { colour: 'var(--line-strong)', width: 1, dash: '3 3' }

const LINES = [
  {
    line: 'earliest',
    get label() {
      return t('features.earliest')
    },
    stroke: { colour: 'var(--quiet-mark)', width: 1.5, dash: '2 4' },
  },
  {
    line: 'expected',
    get label() {
      return t('features.expected')
    },
    stroke: { colour: 'var(--curing-mark)', width: 1.5, dash: '6 4' },
  },
  {
    line: 'conservative',
    get label() {
      return t('features.careful')
    },
    stroke: { colour: 'var(--ready-mark)', width: 3 },
  },
] as const satisfies readonly { line: string; label: string; stroke: Stroke }[]

/** The clamps' events are named on their lines; readings are dots on the metal, and incidents stand in the table. */
const NAMED = new Set<string>(['applied', 'clamped', 'released', 'abandoned'])

/** Above it the lines say nothing more: it is reached. */
const TOP_PERCENT = 110

/** Metal above, progress below, on one axis of time; what is forecast lies on a darker ground. */
export default function CurvePlot({ curve, unit, zone, nowMs, isNarrow }: Props) {
  const pointed = useState<number>()
  const rows = curveRows(curve, unit)
  const xs = rows.map(({ atMs }) => atMs)
  const [fromMs = 0, toMs = 0] = [xs[0], xs.at(-1)]
  const inSpan = (atMs: number) => atMs >= fromMs && atMs <= toMs
  const readings = readingsOf(curve, unit).filter(([atMs]) => inSpan(atMs))
  const degrees = [...rows.flatMap(({ band }) => band), ...readings.map(([, degree]) => degree)]
  const ticks = roundTicks(Math.min(...degrees), Math.max(...degrees), 5)
  const asOfMs = Date.parse(curve.asOf)
  const happened = curve.events.filter(({ kind, at }) => NAMED.has(kind) && inSpan(Date.parse(at)))
  const shared = {
    leftPx: 64,
    pointed,
    x: {
      domain: [fromMs, toMs] as const,
      ticks: clockTicks(fromMs, toMs, zone, isNarrow ? 4 : 8),
      format: (atMs: number) => tickLabel(atMs, zone),
    },
    ground: ({ x, top, bottom, right }: Frame) =>
      asOfMs < toMs && (
        <rect
          x={x(Math.max(fromMs, asOfMs))}
          width={right - x(Math.max(fromMs, asOfMs))}
          y={top}
          height={bottom - top}
          fill="var(--sunk)"
          fillOpacity={0.6}
        />
      ),
  }
  const title = (index: number) => formatInstant(new Date(xs[index] ?? 0).toISOString(), zone)
  return (
    <PlotFigure
      keys={[
        { name: t('features.metalInItsBandDotsMeasured'), stroke: METAL },
        ...LINES.map(({ label, stroke }) => ({ name: label, stroke })),
        { name: t('features.dotsAt100HandlingStrengthReached') },
        { name: t('features.nowTheDarkerGroundIsForecast'), stroke: NOW },
      ]}
    >
      <Plot
        {...shared}
        heightPx={170}
        y={{
          domain: [ticks[0] ?? 0, ticks.at(-1) ?? 0],
          ticks,
          format: (degree) => `${Math.round(degree)} °${unit}`,
        }}
        readout={{ xs, title, lines: (index) => metalLines(rows[index], unit) }}
      >
        {(frame) => (
          <>
            <Band
              frame={frame}
              points={rows.map(({ atMs, band }) => [atMs, ...band])}
              colour="var(--warning-mark)"
            />
            {inSpan(nowMs) && <UprightLine frame={frame} at={nowMs} stroke={NOW} />}
            <Line frame={frame} points={rows.map(({ atMs, metal }) => [atMs, metal])} stroke={METAL} />
            <Dots frame={frame} points={readings} colour="var(--ink)" r={4.5} />
          </>
        )}
      </Plot>
      <Plot
        {...shared}
        heightPx={230}
        y={{ domain: [0, TOP_PERCENT], ticks: [0, 25, 50, 75, 100], format: (percent) => `${percent} %` }}
        readout={{ xs, title, lines: (index) => progressLines(rows[index]) }}
      >
        {(frame) => (
          <>
            {inSpan(nowMs) && <UprightLine frame={frame} at={nowMs} stroke={NOW} />}
            <LevelLine frame={frame} at={100} stroke={REACHED} />
            {LINES.map(({ line, stroke }) => (
              <Line
                key={line}
                frame={frame}
                points={rows.map(({ atMs, progress }) => [atMs, progress[line]])}
                stroke={stroke}
              />
            ))}
            {happened.map(({ kind, at }, index) => (
              <EventLine key={`${kind}-${at}`} frame={frame} atMs={Date.parse(at)} index={index}>
                {EVENT[kind]}
              </EventLine>
            ))}
            {readyTimes(curve).map(({ line, atMs }) => (
              <Dots
                key={line}
                frame={frame}
                points={inSpan(atMs) ? [[atMs, 100]] : []}
                colour={LINES.find((one) => one.line === line)?.stroke.colour ?? 'var(--ink)'}
              />
            ))}
          </>
        )}
      </Plot>
    </PlotFigure>
  )
}

interface EventLineProps {
  readonly frame: Frame
  readonly atMs: number
  readonly index: number
  readonly children: string
}

/** Its name stands towards the middle, and one below the other: applied and clamped lie close together. */
function EventLine({ frame, atMs, index, children }: EventLineProps) {
  const x = frame.x(atMs)
  const isLate = x > (frame.left + frame.right) / 2
  return (
    <>
      <UprightLine frame={frame} at={atMs} stroke={EVENT_LINE} />
      <text
        x={x + (isLate ? -6 : 6)}
        y={frame.top + 32 + index * 17}
        textAnchor={isLate ? 'end' : 'start'}
        fontSize={13}
        fill="var(--ink)"
      >
        {children}
      </text>
    </>
  )
}

function readingsOf({ events }: BondCurve, unit: 'C' | 'F'): (readonly [atMs: number, degree: number])[] {
  return events.flatMap(({ kind, at, temperatureC }) =>
    kind === 'reading' && temperatureC !== null
      ? [[Date.parse(at), unit === 'F' ? celsiusToFahrenheit(temperatureC) : temperatureC] as const]
      : [],
  )
}

function metalLines(row: CurveRow | undefined, unit: 'C' | 'F'): readonly TipLine[] {
  if (row === undefined) return []
  const [low, high] = row.band
  return [
    {
      name: t('features.metalExpected'),
      value: together(`${formatNumber(row.metal, 1)} °${unit}`),
      stroke: METAL,
    },
    {
      name: t('features.lowToHigh'),
      value: together(
        t('lib.range', { from: formatNumber(low, 1), until: `${formatNumber(high, 1)} °${unit}` }),
      ),
      stroke: METAL,
    },
  ]
}

function progressLines(row: CurveRow | undefined): readonly TipLine[] {
  if (row === undefined) return []
  return LINES.map(({ line, label, stroke }) => ({
    name: label,
    // Down: 100 % is said only where it is reached.
    value: `${Math.floor(row.progress[line] * 10 + 1e-6) / 10} %`,
    stroke,
  }))
}
