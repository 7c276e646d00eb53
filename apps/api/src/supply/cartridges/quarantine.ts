import { message, type Message } from '@clampclock/messages'
import type { BodyOf, Cartridge, stockRoutes } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { inEnglish } from '../../foundation/words/words.ts'
import { announce } from '../../foundation/live/hub.ts'
import { cartridgeRow, lockedCartridge, toCartridge } from './cartridge-store.ts'
import { discardLocked } from './cartridges.ts'
import { closeQuarantine } from './close-quarantine.ts'

export interface Excursion {
  readonly cartridgeId: string
  readonly shopId: string
  /** The first reading that said so. */
  readonly since: Date
  readonly reason: Message
}

/** Cartridges that lay outside their storage range; one that is quarantined already stays as it is. */
export async function quarantine(
  tx: Tx,
  organizationId: string,
  found: readonly Excursion[],
  now: Date,
): Promise<void> {
  if (found.length === 0) return
  // The open quarantine of a cartridge is a unique index: two readings at once make one.
  await tx.$executeRaw`
    insert into cartridge_quarantine (organization_id, cartridge_id, since, recorded_at, reason, said)
    values ${Prisma.join(found.map((each) => Prisma.sql`(${organizationId}::uuid, ${each.cartridgeId}::uuid, ${each.since}::timestamptz, ${now}::timestamptz, ${inEnglish(each.reason)}, ${JSON.stringify(each.reason)}::jsonb)`))}
    on conflict (cartridge_id) where decided_at is null do nothing`
  for (const { cartridgeId, shopId } of found)
    await announce(tx, { organizationId, shopId, topic: 'stock', subjectId: cartridgeId })
}

/** By somebody with a say in the shop where it is: it may be used all the same, or it goes. */
export async function decideQuarantine(
  tx: Tx,
  actor: Actor,
  id: string,
  { decision, reason }: BodyOf<typeof stockRoutes.decideQuarantine>,
  now: Date,
): Promise<Cartridge> {
  const row = await lockedCartridge(tx, id)
  requireIn(actor, 'handleStock', row.shop_id)
  if (row.quarantine_reason === null)
    throw wrongState(message('stock-problem.notQuarantined', { code: row.code }))
  if (decision === 'discard') {
    await discardLocked(tx, actor, row, reason, now)
  } else {
    await closeQuarantine(tx, actor, [id], decision, reason, now)
    await announce(tx, {
      organizationId: actor.organization.id,
      shopId: row.shop_id,
      topic: 'stock',
      subjectId: id,
    })
  }
  return toCartridge(await cartridgeRow(tx, id), now)
}
