/** Histories from a file: one JSON object a line. The form is in docs/honesty.md. */
import { readFileSync } from 'node:fs'
import type { DataSheet, Reading } from '@clampclock/cure'
import { minuteOf, rateOf, shareAt, shareOf } from './metal.ts'
import type { Case } from './judge.ts'

const MINUTE_MS = 60_000

/** As `Reading`, but the accuracy may be left out. */
type Row<T> = Omit<T, 'atMs' | 'accuracyC'> & { readonly accuracyC?: number }

interface Line {
  readonly name?: string
  readonly sheet: DataSheet
  readonly appliedAt: string | number
  readonly panelTauMinutes?: number
  readonly readings: readonly Row<Reading>[]
  readonly air?: readonly Omit<Row<Reading>, 'source'>[]
  readonly history?: readonly { readonly temperatureC: number }[]
  readonly truth: readonly (readonly [at: string | number, metalC: number])[]
}

type Timed<T> = T & { readonly at?: string | number; readonly atMs?: number }

function msOf(value: string | number | undefined, field: string, line: number): number {
  const ms = typeof value === 'string' ? Date.parse(value) : value
  if (ms === undefined || !Number.isFinite(ms))
    throw new Error(
      `line ${line}: ${field} is ${String(value)}: give ms since 1970 or an instant with its offset`,
    )
  return ms
}

/** @throws Error naming the line and the field at fault. */
export function casesOf(file: string): Case[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .flatMap((text, i) => (text.trim() === '' ? [] : [caseOf(text, i + 1)]))
}

function caseOf(text: string, number: number): Case {
  const line = JSON.parse(text) as Line
  for (const field of ['sheet', 'appliedAt', 'readings', 'truth'] as const)
    if (line[field] === undefined) throw new Error(`line ${number}: ${field} is missing`)
  const timed = <T extends object>(rows: readonly T[], field: string): (T & { atMs: number })[] =>
    rows.map((row, i) => {
      const { at, atMs } = row as Timed<T>
      return { ...row, atMs: msOf(atMs ?? at, `${field}[${i}].at`, number) }
    })
  const appliedAtMs = msOf(line.appliedAt, 'appliedAt', number)
  const metal = timed(line.readings, 'readings')
  const air = timed(line.air ?? [], 'air').map((row) => ({ ...row, source: 'bayAir' as const }))
  const measured = new Set(metal.map(({ atMs }) => atMs))
  const readings = [...metal, ...air.filter(({ atMs }) => !measured.has(atMs))]
    .toSorted((a, b) => a.atMs - b.atMs)
    .map(({ atMs, temperatureC, accuracyC = 1, source, suspect, lowC, highC }): Reading => {
      return { atMs, temperatureC, accuracyC, source, suspect, lowC, highC }
    })
  const truth = line.truth.map(([at, c], i) => [msOf(at, `truth[${i}]`, number), c] as const)
  const share = shareOf(byTheMinute(truth, appliedAtMs), rateOf(line.sheet))
  return {
    name: line.name ?? `line ${number}`,
    sheet: line.sheet,
    appliedAtMs,
    tauMinutes: line.panelTauMinutes,
    readings,
    past: timed(line.history ?? [], 'history').toSorted((a, b) => a.atMs - b.atMs),
    untilMs: truth.at(-1)![0],
    oracleMinute: minuteOf(share, 1),
    shareAt: (minute) => shareAt(share, minute),
  }
}

/** True metal by the minute from the bond on, in straight lines between what is given. */
function byTheMinute(truth: readonly (readonly [number, number])[], fromMs: number): Float64Array {
  const minutes = Math.max(2, Math.floor((truth.at(-1)![0] - fromMs) / MINUTE_MS) + 1)
  let next = 0
  return Float64Array.from({ length: minutes }, (_, i) => {
    const ms = fromMs + i * MINUTE_MS
    while (next < truth.length - 1 && truth[next]![0] < ms) next++
    const [b, a] = [truth[next]!, truth[Math.max(0, next - 1)]!]
    if (b[0] <= ms || b[0] === a[0]) return b[1]
    return a[1] + ((b[1] - a[1]) * (ms - a[0])) / (b[0] - a[0])
  })
}
