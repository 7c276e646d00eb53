import { limitsOfPlace, type DataSheet, type Reading } from '@clampclock/cure'
import { opensAt } from './gate.ts'
import type { Told } from './lies.ts'

const MINUTE_MS = 60_000

/** One bond with what was measured and what was true. */
export interface Case {
  readonly name: string
  readonly sheet: DataSheet
  readonly appliedAtMs: number
  readonly tauMinutes: number | undefined
  /** In order of time. */
  readonly readings: readonly Reading[]
  /** Of the place, before the bond. */
  readonly past: readonly { readonly atMs: number; readonly temperatureC: number }[]
  /** As far as the truth is known. */
  readonly untilMs: number
  /** When the true share passes one, minutes after the application; Infinity where it does not. */
  readonly oracleMinute: number
  readonly shareAt: (minute: number) => number
}

export interface Judged {
  readonly name: string
  /** True share of cure when the gate opened; null where it did not open. */
  readonly share: number | null
  /** Longer than the oracle, as a share of its time; null where either did not open. */
  readonly extra: number | null
}

export function judge(one: Case): Judged {
  const { name, sheet, appliedAtMs, tauMinutes, readings, past, untilMs, oracleMinute } = one
  const opensMs = opensAt(sheet, appliedAtMs, tauMinutes, limitsOfPlace(past), readings, untilMs)
  if (!Number.isFinite(opensMs)) return { name, share: null, extra: null }
  const minute = (opensMs - appliedAtMs) / MINUTE_MS
  const extra = Number.isFinite(oracleMinute) ? minute / oracleMinute - 1 : null
  return { name, share: one.shareAt(minute), extra }
}

export interface Figures {
  readonly scenario: string
  readonly bonds: number
  /** Gates that never opened as far as was simulated; they count as the longest wait. */
  readonly notOpened: number
  readonly openedEarly: number
  readonly worstShare: number | null
  readonly medianExtraPercent: number | null
  readonly extra95Percent: number | null
}

export function figuresOf(scenario: string, judged: readonly Judged[]): Figures {
  const shares = judged.flatMap(({ share }) => share ?? [])
  const extra = judged.map((one) => one.extra ?? Infinity).toSorted((a, b) => a - b)
  const at = (q: number): number | null => {
    const value = extra[Math.floor(q * (extra.length - 1))]
    return value === undefined || value === Infinity ? null : Math.round(value * 1000) / 10
  }
  return {
    scenario,
    bonds: judged.length,
    notOpened: judged.length - shares.length,
    openedEarly: shares.filter((share) => share < 1).length,
    worstShare: shares.length === 0 ? null : Math.floor(Math.min(...shares) * 10_000) / 10_000,
    medianExtraPercent: at(0.5),
    extra95Percent: at(0.95),
  }
}

export interface JudgedLie {
  readonly offC: number | null
  /** Asked about, doubted or contradicted aloud by the time the gate opened. */
  readonly isNoticed: boolean
  readonly isUnproven: boolean
  /** The furthest that anything that was read by the time the gate opened was off the truth, degC. */
  readonly errorC: number
  /** True share of cure when the gate opened; null where it did not open. */
  readonly share: number | null
}

/** What came late counts from when it was entered. */
export function judgeLie({ whole, revisions, offC, errors, noticedAtMs, isUnproven }: Told): JudgedLie {
  const { sheet, appliedAtMs, tauMinutes, past, untilMs } = whole
  const place = limitsOfPlace(past)
  let opensMs = Infinity
  for (const [i, { fromMs, readings }] of revisions.entries()) {
    const toMs = Math.min(untilMs, revisions[i + 1]?.fromMs ?? untilMs)
    opensMs = Math.max(fromMs, opensAt(sheet, appliedAtMs, tauMinutes, place, readings, toMs))
    if (opensMs < toMs) break
  }
  const isOpened = Number.isFinite(opensMs) && opensMs <= untilMs
  const told = errors.filter(({ enteredAtMs }) => enteredAtMs <= opensMs)
  return {
    offC,
    isNoticed: noticedAtMs <= opensMs && noticedAtMs < Infinity,
    isUnproven,
    errorC: told.reduce((most, { errorC }) => Math.max(most, errorC), 0),
    share: isOpened ? whole.shareAt((opensMs - appliedAtMs) / MINUTE_MS) : null,
  }
}

export interface LieFigures {
  readonly lie: string
  readonly bonds: number
  /** Of these nothing that was off by more than its accuracy had been entered when the gate opened: nobody had lied yet. */
  readonly unheard: number
  /** Of those that were heard. */
  readonly noticedPercent: number
  /** Heard, and further off than honest errors can explain. */
  readonly beyond: number
  readonly beyondNoticedPercent: number | null
  /** Of all: told that nothing bears out what was read. */
  readonly unprovenPercent: number
  readonly openedEarly: number
  readonly openedEarlyUnnoticed: number
  readonly worstShare: number | null
  /** Of lies that have a size: noticed by how far off, percent. */
  readonly noticedByOffC?: Readonly<Record<string, number>>
}

const OFF_C = [3, 5, 7, 9, 11, 15] as const
/** Every thermometer of the simulation is good for this, degC; a display of tenths adds half of one. */
const ACCURACY_C = 1.05
/**
 * Two honest thermometers of one thing differ by both their accuracies at the most, so a lie shows for certain once it is
 * larger than that and the honest error of what it is held against: three accuracies.
 */
const BEYOND_C = 3 * ACCURACY_C

export function figuresOfLies(lie: string, judged: readonly JudgedLie[]): LieFigures {
  const percent = (some: readonly JudgedLie[]): number =>
    Math.round((1000 * some.filter(({ isNoticed }) => isNoticed).length) / Math.max(1, some.length)) / 10
  const heard = lie.startsWith('none') ? judged : judged.filter(({ errorC }) => errorC > ACCURACY_C)
  const beyond = heard.filter(({ errorC }) => errorC > BEYOND_C)
  const early = heard.filter(({ share }) => share !== null && share < 1)
  const worst = judged.reduce((least, { share }) => Math.min(least, share ?? Infinity), Infinity)
  const figures = {
    lie,
    bonds: judged.length,
    unheard: judged.length - heard.length,
    noticedPercent: percent(heard),
    beyond: beyond.length,
    beyondNoticedPercent: beyond.length === 0 ? null : percent(beyond),
    unprovenPercent:
      Math.round((1000 * judged.filter(({ isUnproven }) => isUnproven).length) / judged.length) / 10,
    openedEarly: early.length,
    openedEarlyUnnoticed: early.filter(({ isNoticed }) => !isNoticed).length,
    worstShare: worst === Infinity ? null : Math.floor(worst * 10_000) / 10_000,
  }
  if (judged.every(({ offC }) => offC === null)) return figures
  const classes = OFF_C.slice(0, -1).map((from, i) => {
    const to = OFF_C[i + 1]!
    const within = heard.filter(({ offC }) => offC !== null && offC >= from && offC < to)
    return [`${from} to ${to}`, percent(within)] as const
  })
  return { ...figures, noticedByOffC: Object.fromEntries(classes) }
}
