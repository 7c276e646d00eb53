import type { BondCurve } from '../../../api/types.ts'
import { clockTicks, curveRows, rowAt, type CurveRow } from './curve-rows.ts'

export interface TableRow {
  readonly atMs: number
  /** What happened or is said of this instant; empty for a round time in between. */
  readonly what: string
  readonly row: CurveRow | undefined
}

export const EVENT = {
  applied: 'Applied',
  clamped: 'Clamped',
  released: 'Clamps off',
  abandoned: 'Abandoned',
  reading: 'Panel measured',
  incident: 'Incident',
  disposition: 'Disposition',
} as const satisfies Record<BondCurve['events'][number]['kind'], string>

export const READY = {
  earliest: 'Handling strength, earliest',
  expected: 'Handling strength, expected',
  conservative: 'Handling strength, careful',
} as const

/** The plot in figures: round times, and every instant that the plot marks. */
export function tableRows(
  curve: BondCurve,
  unit: 'C' | 'F',
  zone: string,
  nowMs: number,
): readonly TableRow[] {
  const rows = curveRows(curve, unit)
  const [first, last] = [rows[0], rows.at(-1)]
  const marks: { atMs: number; what: string }[] = curve.events.map(({ kind, at, by, detail }) => ({
    atMs: Date.parse(at),
    what: `${EVENT[kind]} by ${by}${detail === '' ? '' : `: ${detail}`}`,
  }))
  for (const { what, atMs } of readyTimes(curve)) marks.push({ atMs, what })
  if (first !== undefined && last !== undefined) {
    if (nowMs > first.atMs && nowMs <= last.atMs) marks.push({ atMs: nowMs, what: 'Now' })
    const taken = new Set(marks.map(({ atMs }) => atMs))
    for (const atMs of clockTicks(first.atMs, last.atMs, zone, 8)) {
      if (!taken.has(atMs)) marks.push({ atMs, what: '' })
    }
  }
  return marks.sort((a, b) => a.atMs - b.atMs).map((mark) => ({ ...mark, row: rowAt(rows, mark.atMs) }))
}

/** The ready times that can be given, the earliest first. */
export function readyTimes({ readyAt }: Pick<BondCurve, 'readyAt'>) {
  return (['earliest', 'expected', 'conservative'] as const).flatMap((line) => {
    const ready = readyAt[line]
    return ready.kind === 'at' ? [{ line, atMs: Date.parse(ready.at), what: READY[line] }] : []
  })
}
