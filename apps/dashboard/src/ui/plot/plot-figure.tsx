import type { ReactNode } from 'react'
import styles from './plot.module.css'
import { MARK_PATH, type Stroke } from './stroke.ts'

export interface PlotKey {
  readonly name: ReactNode
  /** A remark has none. */
  readonly stroke?: Stroke
}

interface Props {
  readonly keys: readonly PlotKey[]
  /** On a white sheet of its own. */
  readonly isFramed?: boolean
  readonly children: ReactNode
}

/** A plot and the key to it. What it shows must stand in a table beside it: the plot itself is for the eye alone. */
export function PlotFigure({ keys, isFramed = false, children }: Props) {
  return (
    <figure className={`${styles['plot']} ${isFramed ? styles['framed'] : ''}`}>
      {children}
      <figcaption>
        {keys.map(({ name, stroke }, index) => (
          <span key={index}>
            {stroke !== undefined && <KeyStroke stroke={stroke} />}
            {name}
          </span>
        ))}
      </figcaption>
    </figure>
  )
}

function KeyStroke({ stroke: { colour, width = 2, dash, mark } }: { readonly stroke: Stroke }) {
  return (
    <svg width={28} height={12} viewBox="0 0 28 12" aria-hidden>
      <line x1={0} x2={28} y1={6} y2={6} stroke={colour} strokeWidth={width} strokeDasharray={dash} />
      {mark !== undefined && (
        <path d={MARK_PATH[mark]} transform="translate(14 6)" fill={colour} stroke="var(--sheet)" />
      )}
    </svg>
  )
}
