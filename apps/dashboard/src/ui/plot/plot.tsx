import { bisectCenter } from 'd3-array'
import { useId, type Dispatch, type PointerEvent, type ReactNode, type SetStateAction } from 'react'
import { Axes, Grid } from './axes.tsx'
import styles from './plot.module.css'
import type { Axis, Frame } from './frame.ts'
import { linearScale, logScale } from './scale.ts'
import { Tip, type TipLine } from './tip.tsx'
import { useWidth } from './use-width.ts'

/** What is said about the place under the pointer; the index is that of `xs`. */
export interface Readout {
  /** In ascending order. */
  readonly xs: readonly number[]
  readonly title: (index: number) => string
  readonly lines: (index: number) => readonly TipLine[]
}

interface Props {
  readonly heightPx: number
  /** What the labels of the upright axis take. */
  readonly leftPx: number
  readonly x: Axis
  readonly y: Axis
  readonly readout: Readout
  /** The place under the pointer, in values of x; several plots that share it show the same place. */
  readonly pointed: readonly [number | undefined, Dispatch<SetStateAction<number | undefined>>]
  /** Behind the grid. */
  readonly ground?: (frame: Frame) => ReactNode
  readonly children: (frame: Frame) => ReactNode
}

const TOP_PX = 8
const RIGHT_PX = 16
const BOTTOM_PX = 30

/** Axes and what is drawn between them. For the eye alone: a table says the same to everybody else. */
export function Plot({ heightPx, leftPx, x, y, readout, pointed, ground, children }: Props) {
  const [ref, width] = useWidth<HTMLDivElement>()
  const clip = useId()
  const [at, setAt] = pointed
  const frame = frameOf({ width: width ?? 0, heightPx, leftPx, x, y })
  const { left, right, top, bottom } = frame
  const index = at === undefined ? -1 : bisectCenter(readout.xs, at)
  const placeAt = readout.xs[index]
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const px = event.clientX - event.currentTarget.getBoundingClientRect().left
    setAt(px < left || px > right ? undefined : frame.x.valueAt(px))
  }
  return (
    <div ref={ref} className={styles['area']} style={{ height: heightPx }} aria-hidden>
      {width !== undefined && width > leftPx && (
        <>
          <svg
            width={width}
            height={heightPx}
            onPointerMove={onPointerMove}
            onPointerDown={onPointerMove}
            onPointerLeave={() => setAt(undefined)}
          >
            <clipPath id={clip}>
              <rect x={left} y={top} width={right - left} height={bottom - top} />
            </clipPath>
            {ground?.(frame)}
            <Grid frame={frame} x={x} y={y} />
            <Axes frame={frame} x={x} y={y} />
            <g clipPath={`url(#${clip})`}>{children(frame)}</g>
            {placeAt !== undefined && (
              <line
                className={styles['pointed']}
                x1={frame.x(placeAt)}
                x2={frame.x(placeAt)}
                y1={top}
                y2={bottom}
              />
            )}
          </svg>
          {placeAt !== undefined && (
            <Tip
              atPx={frame.x(placeAt)}
              widthPx={width}
              title={readout.title(index)}
              lines={readout.lines(index)}
            />
          )}
        </>
      )}
    </div>
  )
}

interface Sizes extends Pick<Props, 'heightPx' | 'leftPx' | 'x' | 'y'> {
  readonly width: number
}

function frameOf({ width, heightPx, leftPx, x, y }: Sizes): Frame {
  const right = Math.max(leftPx + 1, width - RIGHT_PX)
  const bottom = heightPx - BOTTOM_PX
  const scale = ({ isLog, domain }: Axis, px: readonly [number, number]) =>
    (isLog === true ? logScale : linearScale)(domain, px)
  return {
    x: scale(x, [leftPx, right]),
    y: scale(y, [bottom, TOP_PX]),
    left: leftPx,
    right,
    top: TOP_PX,
    bottom,
  }
}
