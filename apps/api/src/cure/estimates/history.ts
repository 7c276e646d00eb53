import { asTold } from '../../foundation/words/from-text.ts'
import { message, type Message } from '@clampclock/messages'
import {
  addReadings,
  creditedFromMs,
  estimateBond,
  measuredAgain,
  startProgress,
  UNKNOWN_PLACE,
  type AdhesiveChemistry,
  type BondEstimate,
  type BondHistory,
  type EstimateNote,
  type Compared,
  type Milestone,
  type MilestoneEstimate,
  type ReadyInstant,
  type Reading,
  type ReadingSource,
} from '@clampclock/cure'
import { figuresOf, type WholeSheet } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { bayTemperature } from '../temperature/bay-temperature.ts'
import type { BondRow } from './bond-store.ts'
import { judgingSheets } from './judging-sheets.ts'
import { airAtJointOf, comparedAir, isByPanelThermometer, type TakenReading } from './compared-air.ts'

/** Bay air of the hours before tells where the panel started when nobody measured it. */
const LEAD_IN_MS = 2 * 3_600_000

/** What a reading is said to be good for where nobody says otherwise, degC: the default of the contract. */
const PROBE_ACCURACY_C = 1

export interface Estimated {
  /** By the revision that is the slowest to handling strength; the others that count are in `alsoSheets`. */
  readonly history: BondHistory
  readonly estimate: BondEstimate
  readonly asOf: Date
  /** When it could be ready if the metal were measured now; null where that brings nothing forward. */
  readonly measureAgain: ReadyInstant | null
  /**
   * Why it cannot be computed, in the words of the package; null when it can. The estimate then promises nothing: no
   * progress, and no ready time.
   */
  readonly fault: Message | null
  /** The revisions that it is judged by, its own first; empty where it cannot be computed. */
  readonly judgedBy: readonly WholeSheet[]
  /** The later revision that holds the gate shut for longer than its own would; null where none does. */
  readonly slower: WholeSheet | null
  /** What other joints bore out, as text; null where it was not asked. */
  readonly borneOut: string | null
}

/**
 * The estimate of a bond as of `at`: over its own panel readings, the air of its bay, and the bay's forecast. A bond
 * that was released or abandoned is shown as it stood then: where the vehicle went afterwards nobody measured. With
 * `asIfItStayed` it goes on in its bay, which is all that anybody can suppose.
 */
export async function estimateOf(
  tx: Tx,
  bond: BondRow,
  timeZone: string,
  at: Date,
  { asIfItStayed = false } = {},
): Promise<Estimated> {
  const ended = asIfItStayed ? null : (bond.releasedAt ?? bond.abandonedAt)
  const asOf = ended && ended < at ? ended : at
  const bay = bond.bayId
    ? await bayTemperature(tx, bond.bayId, timeZone, leadInOf(bond), at, bond.appliedAt)
    : { readings: [], forecast: [], place: UNKNOWN_PLACE }
  const judgedBy = judgingSheets(bond, at, timeZone)
  const [sheet, ...others] = (judgedBy.length === 0 ? [bond.sheet] : judgedBy).map((row) => ({
    ...figuresOf(row),
    chemistry: bond.sheet.product.chemistry as AdhesiveChemistry,
  }))
  const joint = airAtJointOf(bond, sheet!.applicationRangeC.min)
  const { ifProven, borneOut, ...compared } = await comparedAir(tx, bond, bay, panelReadings(bond), joint)
  const history: BondHistory = {
    sheet: sheet!,
    ...(others.length === 0 ? {} : { alsoSheets: others }),
    appliedAtMs: bond.appliedAt.getTime(),
    ...knownOf(compared, asOf, ended === null),
    nowMs: asOf.getTime(),
    countsFromMs: countsFromOf(bond).getTime(),
    // Nobody knows what the place was like in which it stood until then.
    place: bond.bayFrom === null ? bay.place : UNKNOWN_PLACE,
    ...(bond.panelTauMinutes === null ? {} : { panelTauMinutes: bond.panelTauMinutes }),
  }
  if (judgedBy.length === 0) return { asOf, borneOut, ...uncomputed(history, unapproved(bond)) }
  const answer = computed(history, judgedBy, ended === null)
  const worth =
    ended || ifProven === null || answer.fault !== null
      ? null
      : { ...history, ...knownOf(ifProven, asOf, true) }
  const notes = withWorth(compared.notes, answer.estimate, worth)
  return {
    asOf,
    borneOut,
    ...answer,
    estimate: { ...answer.estimate, notes: [...answer.estimate.notes, ...notes] },
  }
}

/** From when on the air of its bay matters to it: where nobody knew of the bay before, from when it was told. */
export function leadInOf({ appliedAt, bayFrom }: Pick<BondRow, 'appliedAt' | 'bayFrom'>): Date {
  return bayFrom ?? new Date(appliedAt.getTime() - LEAD_IN_MS)
}

function knownOf(
  { metal, air, forecast }: Compared,
  asOf: Date,
  isRunning: boolean,
): Pick<BondHistory, 'readings' | 'forecast'> {
  return {
    readings: mergeReadings(metal, air).filter(({ atMs }) => atMs <= asOf.getTime()),
    forecast: isRunning ? forecast : [],
  }
}

/** What nothing bears out is told with when the joint could be ready if something did. */
function withWorth(
  notes: readonly EstimateNote[],
  { handlingStrength }: BondEstimate,
  ifProven: BondHistory | null,
): readonly EstimateNote[] {
  if (ifProven === null) return notes
  const proven = estimateBond(ifProven).handlingStrength.readyAt.conservative
  const { conservative } = handlingStrength.readyAt
  const isSooner = proven.kind === 'at' && (conservative.kind === 'never' || proven.atMs < conservative.atMs)
  if (!isSooner) return notes
  return notes.map((note) =>
    note.kind === 'metalUnproven' || note.kind === 'airUnproven'
      ? { ...note, ifProvenAtMs: proven.atMs }
      : note,
  )
}

function unapproved({ sheet }: BondRow): Message {
  return message('reason.sheetNotApproved', { product: sheet.product.name, revision: sheet.revision })
}

/** One bond that cannot be computed must not keep the others from being told: it reads as not ready. */
function computed(
  whole: BondHistory,
  judgedBy: readonly WholeSheet[],
  isRunning: boolean,
): Omit<Estimated, 'asOf' | 'borneOut'> {
  let history = whole
  try {
    const slowest = slowestOf(whole)
    history = bySheet(whole, slowest)
    const estimate = estimateBond(history)
    const measureAgain = isRunning ? worthOf(history) : null
    const slower = slowest === 0 ? null : (judgedBy[slowest] ?? null)
    return { history, estimate, measureAgain, fault: null, judgedBy, slower }
  } catch (error) {
    return uncomputed(history, asTold(error instanceof Error ? error.message : String(error)))
  }
}

function uncomputed(history: BondHistory, fault: Message): Omit<Estimated, 'asOf' | 'borneOut'> {
  const empty = { ...history, readings: [], forecast: [] }
  return { history: empty, estimate: NOTHING_KNOWN, measureAgain: null, fault, judgedBy: [], slower: null }
}

/** Half a minute is no difference to anybody, and two curves through the same points may differ by a rounding. */
const NO_DIFFERENCE_MS = 30_000
const NO_DIFFERENCE = 1e-6

/** Which of the revisions is the slowest to handling strength on the careful line; 0, its own, where none is slower. */
function slowestOf({ sheet, alsoSheets = [], ...history }: BondHistory): number {
  if (alsoSheets.length === 0) return 0
  const each = [sheet, ...alsoSheets].map((one) => estimateBond({ ...history, sheet: one }).handlingStrength)
  return each.reduce((slowest, one, i) => (isSlower(one, each[slowest]!) ? i : slowest), 0)
}

function isSlower(a: MilestoneEstimate, b: MilestoneEstimate): boolean {
  const [at, bt] = [a, b].map(({ readyAt: { conservative } }) =>
    conservative.kind === 'at' ? conservative.atMs : Infinity,
  ) as [number, number]
  if (at !== bt) return at - bt > NO_DIFFERENCE_MS
  return a.progress.conservative < b.progress.conservative * (1 - NO_DIFFERENCE)
}

function bySheet(history: BondHistory, index: number): BondHistory {
  const { sheet, alsoSheets = [] } = history
  const all = [sheet, ...alsoSheets]
  return index === 0 ? history : { ...history, sheet: all[index]!, alsoSheets: all.toSpliced(index, 1) }
}

function worthOf(history: BondHistory): ReadyInstant | null {
  const { sheet, appliedAtMs, countsFromMs = appliedAtMs, panelTauMinutes, place, readings } = history
  const state = addReadings(startProgress(sheet, countsFromMs, panelTauMinutes, place), readings)
  return measuredAgain(state, history, PROBE_ACCURACY_C)
}

const NOTHING_KNOWN = nothingKnown()

function nothingKnown(): BondEstimate {
  const never = { kind: 'never', reason: 'noTemperature' } as const
  const of = (milestone: Milestone): BondEstimate['workTime'] => ({
    milestone,
    progress: { earliest: 0, expected: 0, conservative: 0 },
    readyAt: { earliest: never, expected: never, conservative: never },
    basis: 'estimated',
  })
  return {
    workTime: of('workTime'),
    handlingStrength: of('handlingStrength'),
    fullCure: of('fullCure'),
    notes: [{ kind: 'noTemperature' }],
  }
}

/**
 * From when its cure is credited: what is told late makes nothing ready sooner, and no attempt counts while the one before
 * was not known to be over.
 */
export function countsFromOf({
  appliedAt,
  appliedRecordedAt,
  countsNotBefore,
}: Pick<BondRow, 'appliedAt' | 'appliedRecordedAt' | 'countsNotBefore'>): Date {
  const creditedMs = creditedFromMs(appliedAt.getTime(), appliedRecordedAt.getTime())
  return new Date(Math.max(creditedMs, countsNotBefore?.getTime() ?? -Infinity))
}

/** What was withdrawn or replaced counts for nothing; what is in doubt may only delay. */
function panelReadings(bond: BondRow): TakenReading[] {
  return bond.panelReadings.filter(isCounted).map((reading) => ({
    atMs: reading.at.getTime(),
    temperatureC: reading.temperatureC,
    accuracyC: reading.accuracyC,
    source: reading.source as ReadingSource,
    isByPanelThermometer: isByPanelThermometer(bond, reading),
    instrumentId: reading.instrumentId,
    ...(reading.quality === 'suspect' ? { suspect: true } : {}),
  }))
}

export function isCounted({ quality }: { readonly quality: string }): boolean {
  return quality === 'good' || quality === 'suspect'
}

/** By time, one for an instant: the metal itself before the air around it. */
export function mergeReadings(metal: readonly Reading[], air: readonly Reading[]): Reading[] {
  const measured = new Set(metal.map(({ atMs }) => atMs))
  return [...metal, ...air.filter(({ atMs }) => !measured.has(atMs))].toSorted((a, b) => a.atMs - b.atMs)
}
