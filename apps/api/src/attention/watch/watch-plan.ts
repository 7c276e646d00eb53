import { message } from '@clampclock/messages'
import { keptEstimateOf, runningBonds } from '../../cure/index.ts'
import { ATTEMPT_ROW, heldBy, heldReason, jointsOf } from '../../work/index.ts'
import { onClock, param, readyOnClock } from '../../foundation/words/params.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { cureWarnings } from '../../planning/index.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'

type Found = Omit<AttentionNeeded, 'organizationId' | 'openedAt'>

/** Vehicles that are booked to be elsewhere before their bonds are ready on the conservative estimate. */
export async function plannedTooEarly(tx: Tx, now: Date): Promise<Found[]> {
  const found: Found[] = []
  const zones = new Map((await tx.shop.findMany()).map(({ id, timeZone }) => [id, timeZone]))
  for (const bond of await runningBonds(tx)) {
    const timeZone = zones.get(bond.shopId) ?? 'UTC'
    const ready = (await keptEstimateOf(tx, bond, timeZone, now)).estimate.handlingStrength.readyAt
      .conservative
    const elsewhere = await bookedElsewhere(tx, bond.joint.repairOrderId, bond.bayId, {
      endsAfter: now,
      startsAfter: bond.appliedAt,
      startsBefore: ready.kind === 'at' ? new Date(ready.atMs) : null,
    })
    if (!elsewhere) continue
    const facts = {
      order: bond.joint.repairOrder.number,
      place: elsewhere.resource.name,
      at: onClock(elsewhere.startsAt.getTime(), timeZone),
      joint: bond.joint.name,
    }
    found.push({
      shopId: bond.shopId,
      kind: 'plannedMoveBeforeReady',
      message:
        ready.kind === 'at'
          ? message('alert.plannedMoveBeforeReady', { ...facts, ready: readyOnClock(ready.atMs, timeZone) })
          : message('alert.plannedMoveNeverReady', facts),
      subjectKind: 'booking',
      subjectId: elsewhere.id,
      repairOrderId: bond.joint.repairOrderId,
    })
  }
  return found
}

/** The first booking of a vehicle in another bay, or an oven. */
function bookedElsewhere(
  tx: Tx,
  repairOrderId: string,
  bayId: string | null,
  when: { readonly endsAfter: Date; readonly startsAfter: Date; readonly startsBefore: Date | null },
) {
  return tx.booking.findFirst({
    where: {
      repairOrderId,
      cancelledAt: null,
      endsAt: { gt: when.endsAfter },
      startsAt: { gt: when.startsAfter, ...(when.startsBefore ? { lt: when.startsBefore } : {}) },
      resource: { kind: { in: ['bay', 'oven'] } },
      ...(bayId ? { resourceId: { not: bayId } } : {}),
    },
    include: { resource: true },
    orderBy: { startsAt: 'asc' },
  })
}

/** How far ahead a vehicle that waits for a person is told to be booked elsewhere. */
const HELD_AHEAD_MS = 48 * 3_600_000

/** Vehicles that no waiting makes ready (a joint must be inspected or made again), and that are booked to be elsewhere. */
export async function heldElsewhere(tx: Tx, now: Date): Promise<Found[]> {
  const rows = await tx.bond.findMany({
    where: {
      joint: {
        repairOrder: { state: 'open', bookings: { some: { cancelledAt: null, endsAt: { gt: now } } } },
      },
    },
    select: {
      ...ATTEMPT_ROW,
      shopId: true,
      jointId: true,
      bayId: true,
      appliedAt: true,
      joint: {
        select: {
          name: true,
          repairOrderId: true,
          repairOrder: { select: { number: true, shop: { select: { timeZone: true } } } },
        },
      },
    },
    orderBy: [{ jointId: 'asc' }, { attempt: 'asc' }],
  })
  const found: Found[] = []
  for (const attempts of jointsOf(rows)) {
    const state = heldBy(attempts)
    if (state === null) continue
    const { shopId, bayId, appliedAt, joint } = attempts.at(-1)!
    const elsewhere = await bookedElsewhere(tx, joint.repairOrderId, bayId, {
      endsAfter: now,
      startsAfter: appliedAt,
      startsBefore: new Date(now.getTime() + HELD_AHEAD_MS),
    })
    if (!elsewhere) continue
    const { number, shop } = joint.repairOrder
    found.push({
      shopId,
      kind: 'plannedMoveBeforeReady',
      message: message('alert.plannedMoveHeld', {
        order: number,
        place: elsewhere.resource.name,
        at: onClock(elsewhere.startsAt.getTime(), shop.timeZone),
        reason: param(heldReason(joint.name, state).message),
      }),
      subjectKind: 'booking',
      subjectId: elsewhere.id,
      repairOrderId: joint.repairOrderId,
    })
  }
  return found
}

/** Cures of the published plans that a newer forecast makes too long for what is planned behind them, 48 h ahead. */
export async function plannedCuresTooShort(tx: Tx, now: Date): Promise<Found[]> {
  const found: Found[] = []
  for (const { shopId } of await tx.plan.findMany({
    where: { state: 'published' },
    select: { shopId: true },
  }))
    for (const { operationId, repairOrderId, message } of await cureWarnings(tx, shopId, now))
      found.push({
        shopId,
        kind: 'plannedMoveBeforeReady',
        message,
        subjectKind: 'operation',
        subjectId: operationId,
        repairOrderId,
      })
  return found
}
