import type { BondCurve } from '../../../api/types.ts'
import { clockTicks, curveRows, rowAt, type CurveRow } from './curve-rows.ts'
import { t } from '../../../lib/reader.ts'

export interface TableRow {
  readonly atMs: number
  /** What happened or is said of this instant; empty for a round time in between. */
  readonly what: string
  readonly row: CurveRow | undefined
}

type Line = keyof CurveRow['progress']

export const EVENT = {
  get applied() {
    return t('features.applied')
  },
  get clamped() {
    return t('features.clamped')
  },
  get released() {
    return t('features.clampsOff')
  },
  get abandoned() {
    return t('features.abandoned')
  },
  get reading() {
    return t('features.panelMeasured')
  },
  get incident() {
    return t('features.incident')
  },
  get inspection() {
    return t('features.inspection')
  },
  get disposition() {
    return t('features.decision')
  },
} as const satisfies Record<BondCurve['events'][number]['kind'], string>

const READY = {
  get earliest() {
    return t('features.handlingStrengthEarliest')
  },
  get expected() {
    return t('features.handlingStrengthExpected')
  },
  get conservative() {
    return t('features.handlingStrengthCareful')
  },
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
  const marks: { atMs: number; what: string; line?: Line }[] = curve.events.map(
    ({ kind, at, by, detail }) => ({
      atMs: Date.parse(at),
      what: `${t('lib.by', { what: EVENT[kind], who: by })}${detail === '' ? '' : `: ${detail}`}`,
    }),
  )
  marks.push(...readyTimes(curve))
  if (first !== undefined && last !== undefined) {
    if (nowMs > first.atMs && nowMs <= last.atMs) marks.push({ atMs: nowMs, what: t('features.now') })
    const taken = new Set(marks.map(({ atMs }) => atMs))
    for (const atMs of clockTicks(first.atMs, last.atMs, zone, 8)) {
      if (!taken.has(atMs)) marks.push({ atMs, what: '' })
    }
  }
  return marks
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ atMs, what, line }) => ({ atMs, what, row: reached(rowAt(rows, atMs), line) }))
}

/** By its very meaning 100 % at its ready time, which lies between two points of the curve. */
function reached(row: CurveRow | undefined, line: Line | undefined): CurveRow | undefined {
  if (row === undefined || line === undefined) return row
  return { ...row, progress: { ...row.progress, [line]: 100 } }
}

/** The ready times that can be given, the earliest first. */
export function readyTimes({ readyAt }: Pick<BondCurve, 'readyAt'>) {
  return (['earliest', 'expected', 'conservative'] as const).flatMap((line) => {
    const ready = readyAt[line]
    return ready.kind === 'at' ? [{ line, atMs: Date.parse(ready.at), what: READY[line] }] : []
  })
}
