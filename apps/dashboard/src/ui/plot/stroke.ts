/** How a line of a plot looks, in the plot and in its key. */
export interface Stroke {
  readonly colour: string
  readonly width?: number
  /** As of SVG; solid when left out. */
  readonly dash?: string
  readonly mark?: Mark
}

export type Mark = 'circle' | 'square' | 'triangle' | 'diamond'

/** Outlines about the origin, px. */
export const MARK_PATH: Readonly<Record<Mark, string>> = {
  circle: 'M-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z',
  square: 'M-3.5 -3.5h7v7h-7z',
  triangle: 'M0 -4.5L4.5 3.5H-4.5z',
  diamond: 'M0 -5L4.5 0L0 5L-4.5 0z',
}

/** Told apart by dash and mark too: not everybody tells colours apart. */
const SERIES = [
  { colour: 'var(--warning-mark)', mark: 'circle' },
  { colour: 'var(--curing-mark)', dash: '9 4', mark: 'square' },
  { colour: 'var(--ready-mark)', dash: '3 3', mark: 'triangle' },
  { colour: 'var(--ink)', dash: '10 3 2 3', mark: 'diamond' },
] as const satisfies readonly Stroke[]

/** The look of one of several like things. */
export function strokeOf(index: number): (typeof SERIES)[number] {
  return SERIES[index % SERIES.length]!
}

export function strokeProps({ colour, width = 2, dash }: Stroke) {
  return {
    stroke: colour,
    strokeWidth: width,
    ...(dash === undefined ? {} : { strokeDasharray: dash }),
  }
}
