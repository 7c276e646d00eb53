import type { Scale } from './scale.ts'

export interface Axis {
  readonly domain: readonly [from: number, to: number]
  readonly ticks: readonly number[]
  readonly format: (value: number) => string
  readonly isLog?: boolean
}

/** Where things are, px: the plot's own area, without what its axes take. */
export interface Frame {
  readonly x: Scale
  readonly y: Scale
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}
