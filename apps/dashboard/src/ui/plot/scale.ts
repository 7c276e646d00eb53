/** From what is measured to px. */
export interface Scale {
  (value: number): number
  /** Back again: what lies at this px. */
  readonly valueAt: (px: number) => number
}

type Ends = readonly [from: number, to: number]

/** Straight from one span to the other; the middle of the px where the span of the values is empty. */
export function linearScale([v0, v1]: Ends, [p0, p1]: Ends): Scale {
  const share = (value: number) => (v1 === v0 ? 0.5 : (value - v0) / (v1 - v0))
  return Object.assign((value: number) => p0 + share(value) * (p1 - p0), {
    valueAt: (px: number) => (p1 === p0 ? v0 : v0 + ((px - p0) / (p1 - p0)) * (v1 - v0)),
  })
}

/** Equal ratios are equally long. @throws RangeError for a span that does not lie above 0. */
export function logScale([v0, v1]: Ends, px: Ends): Scale {
  if (!(v0 > 0 && v1 > 0)) throw new RangeError(`the span is ${v0} to ${v1}: a logarithm needs both above 0`)
  const scale = linearScale([Math.log(v0), Math.log(v1)], px)
  return Object.assign((value: number) => scale(Math.log(value)), {
    valueAt: (at: number) => Math.exp(scale.valueAt(at)),
  })
}
