export interface Window {
  readonly first: number
  /** One past the last. */
  readonly end: number
}

interface View {
  readonly count: number
  readonly rowHeightPx: number
  /** How far the list's top lies above the top of the screen; negative while it is below. */
  readonly scrolledPx: number
  readonly screenPx: number
  readonly overscan: number
}

/** Which rows of a long list of equal rows are worth drawing. */
export function windowOf({ count, rowHeightPx, scrolledPx, screenPx, overscan }: View): Window {
  const first = Math.floor(scrolledPx / rowHeightPx) - overscan
  const end = Math.ceil((scrolledPx + screenPx) / rowHeightPx) + overscan
  const clamp = (index: number) => Math.min(count, Math.max(0, index))
  return { first: clamp(first), end: clamp(end) }
}
