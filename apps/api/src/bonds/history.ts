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
  type Milestone,
  type ReadyInstant,
  type Reading,
  type ReadingSource,
} from '@clampclock/cure'
import { figuresOf, isApproved } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { bayTemperature } from '../temperature/bay-temperature.ts'
import type { BondRow } from './bond-store.ts'

/** Bay air of the hours before tells where the panel started when nobody measured it. */
const LEAD_IN_MS = 2 * 3_600_000

/** What a reading is said to be good for where nobody says otherwise, degC: the default of the contract. */
const PROBE_ACCURACY_C = 1

export interface Estimated {
  readonly history: BondHistory
  readonly estimate: BondEstimate
  readonly asOf: Date
  /** When it could be ready if the metal were measured now; null where that brings nothing forward. */
  readonly measureAgain: ReadyInstant | null
  /**
   * Why it cannot be computed, in the words of the package; null when it can. The estimate then promises nothing: no
   * progress, and no ready time.
   */
  readonly fault: string | null
}

/**
 * The estimate of a bond as of `at`: over its own panel readings, the air of its bay, and the bay's forecast. A bond
 * that was released or abandoned is shown as it stood then: where the vehicle went afterwards nobody measured.
 */
export async function estimateOf(tx: Tx, bond: BondRow, timeZone: string, at: Date): Promise<Estimated> {
  const ended = bond.releasedAt ?? bond.abandonedAt
  const asOf = ended && ended < at ? ended : at
  const leadIn = new Date(bond.appliedAt.getTime() - LEAD_IN_MS)
  const bay = bond.bayId
    ? await bayTemperature(tx, bond.bayId, timeZone, leadIn, at, bond.appliedAt)
    : { readings: [], forecast: [], place: UNKNOWN_PLACE }
  const history: BondHistory = {
    sheet: { ...figuresOf(bond.sheet), chemistry: bond.sheet.product.chemistry as AdhesiveChemistry },
    appliedAtMs: bond.appliedAt.getTime(),
    readings: mergeReadings(panelReadings(bond), bay.readings).filter(({ atMs }) => atMs <= asOf.getTime()),
    forecast: ended ? [] : bay.forecast,
    nowMs: asOf.getTime(),
    countsFromMs: countsFromOf(bond).getTime(),
    place: bay.place,
    ...(bond.panelTauMinutes === null ? {} : { panelTauMinutes: bond.panelTauMinutes }),
  }
  if (!isApproved(bond.sheet)) return { asOf, ...uncomputed(history, unapproved(bond)) }
  return { asOf, ...computed(history, ended === null) }
}

function unapproved({ sheet }: BondRow): string {
  return `The data sheet of ${sheet.product.name}, revision ${sheet.revision}, is not approved yet: have it compared with the print and approved`
}

/** One bond that cannot be computed must not keep the others from being told: it reads as not ready. */
function computed(history: BondHistory, isRunning: boolean): Omit<Estimated, 'asOf'> {
  try {
    const estimate = estimateBond(history)
    return { history, estimate, measureAgain: isRunning ? worthOf(history) : null, fault: null }
  } catch (error) {
    return uncomputed(history, error instanceof Error ? error.message : String(error))
  }
}

function uncomputed(history: BondHistory, fault: string): Omit<Estimated, 'asOf'> {
  const empty = { ...history, readings: [], forecast: [] }
  return { history: empty, estimate: NOTHING_KNOWN, measureAgain: null, fault }
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

/** From when its cure is credited: what is told late makes nothing ready sooner. */
export function countsFromOf({
  appliedAt,
  appliedRecordedAt,
}: Pick<BondRow, 'appliedAt' | 'appliedRecordedAt'>): Date {
  return new Date(creditedFromMs(appliedAt.getTime(), appliedRecordedAt.getTime()))
}

/** What was withdrawn or replaced counts for nothing; what is in doubt may only delay. */
function panelReadings(bond: BondRow): Reading[] {
  return bond.panelReadings.filter(isCounted).map(({ at, temperatureC, accuracyC, source, quality }) => ({
    atMs: at.getTime(),
    temperatureC,
    accuracyC,
    source: source as ReadingSource,
    ...(quality === 'suspect' ? { suspect: true } : {}),
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
