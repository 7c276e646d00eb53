import styles from './plot.module.css'
import type { Stroke } from './stroke.ts'

export interface TipLine {
  readonly name: string
  readonly value: string
  readonly stroke: Stroke
}

interface Props {
  readonly atPx: number
  readonly widthPx: number
  readonly title: string
  readonly lines: readonly TipLine[]
}

/** The box beside the pointer, on the side where there is room. */
export function Tip({ atPx, widthPx, title, lines }: Props) {
  const side = atPx > widthPx / 2 ? { right: widthPx - atPx + 12 } : { left: atPx + 12 }
  return (
    <div className={styles['tip']} style={side}>
      <b>{title}</b>
      {lines.map(({ name, value, stroke }) => (
        <span key={name}>
          <i style={{ background: stroke.colour }} />
          {name}: {value}
        </span>
      ))}
    </div>
  )
}
