import type { AlertKind } from '@clampclock/contracts'
import { lookForCauses, recheckBySheets, runningBonds } from '../../cure/index.ts'
import type { Database, Tx } from '../../foundation/database/database.ts'
import { inChain } from '../../foundation/database/in-chain.ts'
import type { AttentionNeeded } from '../../foundation/events/attention.ts'
import { keepBaysForCures } from '../../planning/index.ts'
import { isSame } from '../../foundation/words/words.ts'
import { saidBy } from '../alerts/alerts.ts'
import { closeAlert, raiseAlert } from '../alerts/raise.ts'
import { keepFailure, keepWatched } from './watch-state.ts'
import { nextLook } from './next-look.ts'
import { heldElsewhere, plannedCuresTooShort, plannedTooEarly } from './watch-plan.ts'
import { shortStock } from './watch-levels.ts'
import { lostReservations } from './watch-reservations.ts'
import { bondsToTell } from './watch-bonds.ts'
import { disagreeingSensors, doubtfulSensors, sensorsApartAtJoint } from './watch-sensors.ts'
import { deadStock, heldStock, unfitStock, unsettledCounts } from './watch-stock.ts'
import { silentSensors, storageExcursions } from './watch-temperature.ts'

/** Alerts that hold while their condition does; the others are raised and closed by what people do. */
const WATCHED: readonly AlertKind[] = [
  'expiredOnShelf',
  'openedPastOpenLife',
  'expiresSoon',
  'belowReorderPoint',
  'noDispenserFits',
  'lotOnHold',
  'countDiffers',
  'reservedDies',
  'storageExcursion',
  'sensorSilent',
  'plannedMoveBeforeReady',
  'notComputed',
  'sensorDoubted',
  'sensorsDisagree',
  'sheetSlower',
]

/** Any number will do, as long as every process takes the same one. */
const WATCH_LOCK = 7_246_003

/**
 * Looks at everything that time alone can bring about, in every chain: opens what has come true and closes what no longer
 * is. The service itself looks at one chain at a time, when a job says so.
 *
 * @throws {AggregateError} when a chain could not be looked at; the others have been all the same.
 */
export async function watchAll(database: Database, now: Date): Promise<void> {
  const organizations = await database.prisma.organization.findMany({ select: { id: true } })
  const failures: unknown[] = []
  for (const { id } of organizations) {
    try {
      await watchOne(database, id, now)
    } catch (error) {
      failures.push(error)
    }
  }
  if (failures.length > 0)
    throw new AggregateError(
      failures,
      `${failures.length} of ${organizations.length} chains were not watched`,
    )
}

/** Where another look at the same chain is under way, its facts may be older than ours. */
const AFTER_THE_OTHER_MS = 1000

/**
 * Looks at one chain; nothing of any other is read. A look that fails is kept: its people are told. Answers when time alone
 * may next bring something about.
 */
export async function watchOne(database: Database, organizationId: string, now: Date): Promise<Date> {
  try {
    return await inChain(database, organizationId, (tx) => watchChain(tx, organizationId, now))
  } catch (error) {
    await inChain(database, organizationId, (tx) => keepFailure(tx, organizationId, now))
    throw error
  }
}

async function watchChain(tx: Tx, organizationId: string, now: Date): Promise<Date> {
  const [lock] = await tx.$queryRaw<[{ mine: boolean }]>`
    select pg_try_advisory_xact_lock(${WATCH_LOCK}::int, hashtext(${organizationId})) as mine`
  if (!lock.mine) return new Date(now.getTime() + AFTER_THE_OTHER_MS)
  await recheckBySheets(tx, organizationId, now)
  await lookForCauses(tx, await runningBonds(tx), now)
  await keepBaysForCures(tx, organizationId, now)
  const all = [
    ...(await deadStock(tx, now)),
    ...(await unfitStock(tx)),
    ...(await heldStock(tx)),
    ...(await unsettledCounts(tx)),
    ...(await shortStock(tx, organizationId, now)),
    ...(await lostReservations(tx, organizationId, now)),
    ...(await silentSensors(tx, now)),
    ...(await doubtfulSensors(tx, now)),
    ...(await sensorsApartAtJoint(tx, now)),
    ...(await disagreeingSensors(tx, now)),
    ...(await storageExcursions(tx, now)),
    ...(await bondsToTell(tx, now)),
    ...(await plannedTooEarly(tx, now)),
    ...(await heldElsewhere(tx, now)),
    ...(await plannedCuresTooShort(tx, now)),
  ]
  // Two bonds may say the same of one booking. They come in a fixed order, so it is the same one at every look.
  const found = [...new Map(all.map((alert) => [keyOf(alert), alert])).values()]
  const open = await tx.alert.findMany({ where: { closedAt: null, kind: { in: [...WATCHED] } } })
  const told = new Map(open.map((alert) => [keyOf(alert), alert]))
  const standing = new Set(found.map(keyOf))
  const resolved = await resolvedWhileStanding(tx, standing, now)
  for (const alert of found) {
    if (resolved.has(keyOf(alert))) continue
    const known = told.get(keyOf(alert))
    if (!known || !isSame(saidBy(known), alert.message))
      await raiseAlert(tx, { ...alert, organizationId, openedAt: now })
  }
  for (const alert of open) {
    if (standing.has(keyOf(alert))) continue
    await closeAlert(tx, {
      organizationId,
      shopId: alert.shopId,
      kind: alert.kind,
      subjectId: alert.subjectId,
      at: now,
    })
  }
  const nextAt = await nextLook(tx, now)
  await keepWatched(tx, organizationId, now, nextAt)
  return nextAt
}

function keyOf({
  kind,
  shopId,
  subjectId,
}: Pick<AttentionNeeded, 'shopId' | 'subjectId'> & { kind: string }): string {
  return `${kind} ${shopId} ${subjectId}`
}

/**
 * What a person resolved although its cause lasts: it is not told again while it does. Once the cause has ended, it is
 * free to come back.
 */
async function resolvedWhileStanding(
  tx: Tx,
  standing: ReadonlySet<string>,
  now: Date,
): Promise<ReadonlySet<string>> {
  const rows = await tx.alert.findMany({
    where: { closedBy: { not: null }, conditionEndedAt: null, kind: { in: [...WATCHED] } },
  })
  const over = rows.filter((alert) => !standing.has(keyOf(alert)))
  await tx.alert.updateMany({
    where: { id: { in: over.map(({ id }) => id) } },
    data: { conditionEndedAt: now },
  })
  return new Set(rows.filter((alert) => standing.has(keyOf(alert))).map(keyOf))
}
