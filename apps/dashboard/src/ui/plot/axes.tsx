import type { Axis, Frame } from './frame.ts'
import styles from './plot.module.css'
import { labelEvery } from './ticks.ts'

interface Props {
  readonly frame: Frame
  readonly x: Axis
  readonly y: Axis
}

/** Lines across, on whole px so that they stay thin. */
export function Grid({ frame, x, y }: Props) {
  const { left, right, top, bottom } = frame
  return (
    <g className={styles['grid']}>
      {y.ticks.map((tick) => (
        <line key={tick} x1={left} x2={right} y1={crisp(frame.y(tick))} y2={crisp(frame.y(tick))} />
      ))}
      {x.ticks.map((tick) => (
        <line key={tick} x1={crisp(frame.x(tick))} x2={crisp(frame.x(tick))} y1={top} y2={bottom} />
      ))}
      <line x1={left} x2={right} y1={crisp(top)} y2={crisp(top)} />
      <line x1={crisp(right)} x2={crisp(right)} y1={top} y2={bottom} />
    </g>
  )
}

export function Axes({ frame, x, y }: Props) {
  const { left, right, top, bottom } = frame
  const labels = x.ticks.map((tick) => x.format(tick))
  const every = labelEvery(labels, right - left)
  return (
    <g className={styles['axis']}>
      <path d={`M${crisp(left)} ${top}V${crisp(bottom)}H${right}`} fill="none" />
      {y.ticks.map((tick) => (
        <g key={tick}>
          <line x1={left - 6} x2={left} y1={crisp(frame.y(tick))} y2={crisp(frame.y(tick))} />
          <text x={left - 9} y={frame.y(tick)} dy="0.35em" textAnchor="end">
            {y.format(tick)}
          </text>
        </g>
      ))}
      {x.ticks.map((tick, index) =>
        index % every === 0 ? (
          <g key={tick}>
            <line x1={crisp(frame.x(tick))} x2={crisp(frame.x(tick))} y1={bottom} y2={bottom + 6} />
            <text {...labelPlace(frame, tick, labels[index]!)} y={bottom + 22}>
              {labels[index]}
            </text>
          </g>
        ) : null,
      )}
    </g>
  )
}

const crisp = (px: number) => Math.round(px) + 0.5

/** Under its tick; the last one ends with the plot when it would be cut off. */
function labelPlace({ x, right }: Frame, tick: number, label: string) {
  const at = x(tick)
  const isCut = at + label.length * 4 > right + 12
  return isCut ? ({ x: right + 14, textAnchor: 'end' } as const) : ({ x: at, textAnchor: 'middle' } as const)
}
