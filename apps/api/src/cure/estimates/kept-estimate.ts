import type { Tx } from '../../foundation/database/database.ts'
import { dayIn } from '../../foundation/http/dates.ts'
import { bayMark } from '../temperature/bay-temperature.ts'
import { lookForPasts } from '../temperature/past.ts'
import type { BondRow } from './bond-store.ts'
import { borneOutBefore, printOf } from './borne-out.ts'
import { estimateOf, leadInOf, type Estimated } from './history.ts'

/** A kept estimate is shown for so long, ms; screens show its instant, and count on from it by themselves. */
const SHOWN_FOR_MS = 15_000
const MOST_KEPT = 500

interface Kept {
  readonly causes: string
  readonly askedAtMs: number
  readonly estimated: Estimated
}

const kept = new Map<string, Kept>()

/**
 * As `estimateOf`, as of up to a quarter of a minute ago: for lists, boards and looks, where many ask for the same. It is
 * computed anew as soon as anything that it is made from has changed: the bond itself, its readings, the air of its bay,
 * the data sheets. A gate computes (`estimateOf`).
 */
export async function keptEstimateOf(tx: Tx, bond: BondRow, timeZone: string, at: Date): Promise<Estimated> {
  const atMs = at.getTime()
  const mark = await bayMark(tx, bond.bayId, leadInOf(bond), at)
  // By its day too: at midnight a sheet that is valid from today begins to count.
  const causes = `${timeZone} ${dayIn(at, timeZone)} ${mark} ${happenedBy(bond, atMs)} ${textOf(bond)}`
  const known = kept.get(bond.id)
  const isFresh =
    known?.causes === causes &&
    known.askedAtMs <= atMs &&
    atMs - known.askedAtMs < SHOWN_FOR_MS &&
    !hasComeTrue(known, atMs) &&
    (await isBorneOutAsBefore(tx, bond, known))
  kept.delete(bond.id)
  const now = isFresh
    ? known
    : { causes, askedAtMs: atMs, estimated: await estimateOf(tx, bond, timeZone, at) }
  kept.set(bond.id, now)
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!)
  return now.estimated
}

/** Other joints of the shop may speak for its thermometers, and what they say may have been withdrawn. */
async function isBorneOutAsBefore(tx: Tx, bond: BondRow, { estimated }: Kept): Promise<boolean> {
  const { borneOut } = estimated
  return borneOut === null || borneOut === printOf(await borneOutBefore(tx, bond.shopId, bond.appliedAt))
}

/** Whether an instant that it foretold lies between then and now: who waited for it is told on the second. */
function hasComeTrue({ askedAtMs, estimated: { estimate } }: Kept, atMs: number): boolean {
  const { workTime, handlingStrength, fullCure } = estimate
  return [workTime, handlingStrength, fullCure]
    .flatMap(({ readyAt }) => [readyAt.conservative, readyAt.expected, readyAt.earliest])
    .some((ready) => ready.kind === 'at' && ready.atMs > askedAtMs && ready.atMs <= atMs)
}

/**
 * How much of what is known of a bond had happened by then. Who asked a moment before a reading, and found it in the database,
 * was told as of that moment, without it; who asks after it must be told with it.
 */
function happenedBy({ appliedAt, clampedAt, releasedAt, abandonedAt, panelReadings }: BondRow, atMs: number) {
  const instants = [appliedAt, clampedAt, releasedAt, abandonedAt, ...panelReadings.map(({ at }) => at)]
  return instants.filter((instant) => instant !== null && instant.getTime() <= atMs).length
}

/** Before many are asked for: what they are made from is looked for at one go. */
export async function lookForCauses(tx: Tx, bonds: readonly BondRow[], at: Date): Promise<void> {
  const bays = bonds.flatMap(({ bayId }) => bayId ?? [])
  await lookForPasts(tx, bays, at)
}

/** All that the database says of it, with its readings, incidents and sheets. */
function textOf(bond: BondRow): string {
  return JSON.stringify(bond, (_, value: unknown) => (typeof value === 'bigint' ? String(value) : value))
}
