import { area, line } from 'd3-shape'
import type { Frame } from './frame.ts'
import { MARK_PATH, strokeProps, type Stroke } from './stroke.ts'

/** Undefined where there is nothing: the line has a gap there. */
export type Point = readonly [x: number, y: number | undefined]

interface LineProps {
  readonly frame: Frame
  readonly points: readonly Point[]
  readonly stroke: Stroke
}

const isThere = (point: Point): point is readonly [number, number] =>
  point[1] !== undefined && Number.isFinite(point[1])

/** Straight from point to point. */
export function Line({ frame, points, stroke }: LineProps) {
  const path = line<Point>()
    .defined(isThere)
    .x(([x]) => frame.x(x))
    .y(([, y]) => frame.y(y ?? 0))
  return <path data-line d={path([...points]) ?? ''} fill="none" {...strokeProps(stroke)} />
}

interface BandProps {
  readonly frame: Frame
  readonly points: readonly (readonly [x: number, low: number, high: number])[]
  readonly colour: string
}

export function Band({ frame, points, colour }: BandProps) {
  const path = area<BandProps['points'][number]>()
    .x(([x]) => frame.x(x))
    .y0(([, low]) => frame.y(low))
    .y1(([, , high]) => frame.y(high))
  return <path d={path([...points]) ?? ''} fill={colour} fillOpacity={0.3} />
}

interface AcrossProps {
  readonly frame: Frame
  readonly stroke: Stroke
  readonly at: number
}

/** A level line across the plot that is no series. */
export function LevelLine({ frame, at, stroke }: AcrossProps) {
  return <line x1={frame.left} x2={frame.right} y1={frame.y(at)} y2={frame.y(at)} {...strokeProps(stroke)} />
}

/** The same, upright. */
export function UprightLine({ frame, at, stroke }: AcrossProps) {
  return <line x1={frame.x(at)} x2={frame.x(at)} y1={frame.top} y2={frame.bottom} {...strokeProps(stroke)} />
}

interface DotsProps {
  readonly frame: Frame
  readonly points: readonly Point[]
  readonly colour: string
  readonly r?: number
}

export function Dots({ frame, points, colour, r = 5 }: DotsProps) {
  return points
    .filter(isThere)
    .map(([x, y]) => (
      <circle
        key={`${x} ${y}`}
        cx={frame.x(x)}
        cy={frame.y(y)}
        r={r}
        fill={colour}
        stroke="var(--sheet)"
        strokeWidth={1.5}
      />
    ))
}

interface MarksProps {
  readonly frame: Frame
  readonly points: readonly Point[]
  readonly stroke: Required<Pick<Stroke, 'colour' | 'mark'>>
}

export function Marks({ frame, points, stroke: { colour, mark } }: MarksProps) {
  return points
    .filter(isThere)
    .map(([x, y]) => (
      <path
        key={x}
        d={MARK_PATH[mark]}
        transform={`translate(${frame.x(x)} ${frame.y(y)})`}
        fill={colour}
        stroke="var(--sheet)"
      />
    ))
}
