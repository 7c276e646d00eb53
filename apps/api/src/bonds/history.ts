import {
  estimateBond,
  type BondEstimate,
  type BondHistory,
  type Reading,
  type ReadingSource,
} from '@clampclock/cure'
import { figuresOf } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { airReadings, bayTemperature } from '../temperature/bay-temperature.ts'
import type { BondRow } from './bond-store.ts'

/** Bay air of the hours before tells where the panel started when nobody measured it. */
const LEAD_IN_MS = 2 * 3_600_000

export interface Estimated {
  readonly history: BondHistory
  readonly estimate: BondEstimate
  readonly asOf: Date
}

/**
 * The estimate of a bond as of `at`: over its own panel readings, the air of its bay, and the bay's forecast. A bond
 * that was released or abandoned is shown as it stood then: where the vehicle went afterwards nobody measured.
 */
export async function estimateOf(tx: Tx, bond: BondRow, timeZone: string, at: Date): Promise<Estimated> {
  const ended = bond.releasedAt ?? bond.abandonedAt
  const asOf = ended && ended < at ? ended : at
  const bay = bond.bayId
    ? await bayTemperature(tx, bond.bayId, timeZone, new Date(bond.appliedAt.getTime() - LEAD_IN_MS), at)
    : { sensor: null, readings: [], forecast: [] }
  const history: BondHistory = {
    sheet: figuresOf(bond.sheet),
    appliedAtMs: bond.appliedAt.getTime(),
    readings: merge(panelReadings(bond), airReadings(bay)).filter(({ atMs }) => atMs <= asOf.getTime()),
    forecast: ended ? [] : bay.forecast,
    nowMs: asOf.getTime(),
    ...(bond.panelTauMinutes === null ? {} : { panelTauMinutes: bond.panelTauMinutes }),
  }
  return { history, estimate: estimateBond(history), asOf }
}

function panelReadings(bond: BondRow): Reading[] {
  return bond.panelReadings.map(({ at, temperatureC, accuracyC, source }) => ({
    atMs: at.getTime(),
    temperatureC,
    accuracyC,
    source: source as ReadingSource,
  }))
}

/** By time, one for an instant: the metal itself before the air around it. */
function merge(metal: readonly Reading[], air: readonly Reading[]): Reading[] {
  const measured = new Set(metal.map(({ atMs }) => atMs))
  return [...metal, ...air.filter(({ atMs }) => !measured.has(atMs))].toSorted((a, b) => a.atMs - b.atMs)
}
