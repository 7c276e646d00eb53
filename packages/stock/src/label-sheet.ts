/** Lengths in mm. */
export interface LabelSheet {
  readonly id: string
  readonly widthMm: number
  readonly heightMm: number
  readonly columns: number
  readonly rows: number
  readonly labelWidthMm: number
  readonly labelHeightMm: number
  /** From one label's edge to the next one's. */
  readonly gapXMm: number
  readonly gapYMm: number
}

export interface LabelPlace {
  /** From 0. */
  readonly page: number
  readonly xMm: number
  readonly yMm: number
}

const A4 = { widthMm: 210, heightMm: 297 }
const LETTER = { widthMm: 215.9, heightMm: 279.4 }

function sheet(
  id: string,
  paper: typeof A4,
  [columns, rows]: readonly [number, number],
  [labelWidthMm, labelHeightMm]: readonly [number, number],
  gapXMm = 0,
): LabelSheet {
  return { id, ...paper, columns, rows, labelWidthMm, labelHeightMm, gapXMm, gapYMm: 0 }
}

/** Die-cut sheets as stationers sell them, with equal margins on opposite sides. Common practice, no source. */
export const LABEL_SHEETS: readonly LabelSheet[] = [
  sheet('a4-3x8', A4, [3, 8], [70, 36]),
  sheet('a4-3x7', A4, [3, 7], [63.5, 38.1], 2.5),
  sheet('a4-4x10', A4, [4, 10], [48.5, 25.4]),
  sheet('a4-2x7', A4, [2, 7], [99.1, 38.1], 2.5),
  sheet('letter-3x10', LETTER, [3, 10], [66.7, 25.4], 3.2),
  sheet('letter-2x5', LETTER, [2, 5], [101.6, 50.8], 4.8),
  sheet('single-57x32', { widthMm: 57, heightMm: 32 }, [1, 1], [57, 32]),
]

/** Where label number `index` (from 0) lies when the first one goes on place `start` (from 1) of the first sheet. */
export function labelPlace(on: LabelSheet, index: number, start: number): LabelPlace {
  const perSheet = on.columns * on.rows
  if (!(start >= 1 && start <= perSheet))
    throw new RangeError(`start is ${start}: the sheet has places 1 to ${perSheet}`)
  const place = index + start - 1
  const onPage = place % perSheet
  const column = onPage % on.columns
  const row = Math.floor(onPage / on.columns)
  return {
    page: Math.floor(place / perSheet),
    xMm: margin(on.widthMm, on.columns, on.labelWidthMm, on.gapXMm) + column * (on.labelWidthMm + on.gapXMm),
    yMm: margin(on.heightMm, on.rows, on.labelHeightMm, on.gapYMm) + row * (on.labelHeightMm + on.gapYMm),
  }
}

function margin(paper: number, count: number, label: number, gap: number): number {
  return (paper - count * label - (count - 1) * gap) / 2
}
