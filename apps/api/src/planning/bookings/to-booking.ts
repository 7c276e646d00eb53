import { nameOf, toldOf } from '../../foundation/words/kept.ts'
import { onClock, readyOnClock } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { Booking, ReadyInstant } from '@clampclock/contracts'
import {
  type BondRow,
  keptEstimateOf,
  latest,
  lookForCauses,
  storedProgram,
  toReady,
} from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { nextBookingIn, type BookingRow } from './booking-store.ts'
import { proposalFor } from './proposal.ts'

/** Until when running bonds keep their vehicles where they stand, by bay and repair order. */
export type Curing = ReadonlyMap<string, ReadyInstant>

const keyOf = (bayId: string, repairOrderId: string) => `${bayId} ${repairOrderId}`

export async function curingOf(
  tx: Tx,
  bonds: readonly BondRow[],
  timeZone: string,
  now: Date,
): Promise<Curing> {
  await lookForCauses(tx, bonds, now)
  const curing = new Map<string, ReadyInstant>()
  for (const bond of bonds) {
    if (!bond.bayId) continue
    const key = keyOf(bond.bayId, bond.joint.repairOrderId)
    const { estimate } = await keptEstimateOf(tx, bond, timeZone, now)
    const ready = toReady(estimate.handlingStrength.readyAt.conservative)
    curing.set(key, latest([ready, ...(curing.has(key) ? [curing.get(key)!] : [])])!)
  }
  return curing
}

export async function toBooking(
  tx: Tx,
  row: BookingRow,
  curing: Curing,
  timeZone: string,
  now: Date,
): Promise<Booking> {
  const holds = row.startsAt <= now && row.purpose === 'work'
  const until = holds ? (curing.get(keyOf(row.resourceId, row.repairOrderId)) ?? null) : null
  return {
    id: row.id,
    shopId: row.shopId,
    resourceId: row.resourceId,
    resourceName: row.resource.name,
    repairOrderId: row.repairOrderId,
    repairOrderNumber: row.repairOrder.number,
    vehicle: row.repairOrder.vehicle,
    purpose: row.purpose as Booking['purpose'],
    startsAt: row.startsAt,
    endsAt: row.endsAt,
    highestMetalC: row.highestMetalC,
    bakeProgram: storedProgram(row.bakeProgram),
    metalStartC: row.metalStartC,
    units: row.units,
    curingUntil: until,
    clash: until ? await clashOf(tx, row, until, timeZone) : null,
    note: toldOf(row.note, row.noteSaid),
    planId: row.planId,
    operationName: row.operation && nameOf(row.operation),
    version: row.version,
  }
}

async function clashOf(
  tx: Tx,
  row: BookingRow,
  until: ReadyInstant,
  timeZone: string,
): Promise<Booking['clash']> {
  const next = await nextBookingIn(tx, row.resourceId, row.startsAt, { notOf: row.repairOrderId })
  if (!next || next.startsAt < row.startsAt) return null
  if (until.kind === 'at' && next.startsAt >= until.at) return null
  const facts = {
    next: next.repairOrder.number,
    from: onClock(next.startsAt.getTime(), timeZone),
  }
  return {
    withBookingId: next.id,
    message:
      until.kind === 'at'
        ? message('reason.clash', { ...facts, until: readyOnClock(until.at.getTime(), timeZone) })
        : message('reason.clashNoEnd', facts),
    proposal: await proposalFor(tx, next, until.kind === 'at' ? until.at : null, timeZone),
  }
}
