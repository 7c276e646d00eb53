import { message } from '@clampclock/messages'
import { PERMISSIONS } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { ProductSheet as SheetRow, ProductSheetDecision } from '../../generated/prisma/client.ts'
import { dayIn } from '../../foundation/http/dates.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'

type Proposed = SheetRow & { readonly decision: ProductSheetDecision | null }

/**
 * A second pair of eyes. Where nobody else could, a second look on a later calendar day: who mistyped a figure reads the
 * same figure again for as long as it is fresh.
 *
 * @throws {ProblemError} `wrong-state`.
 */
export async function approveSheet(
  tx: Tx,
  actor: Actor,
  sheet: Proposed,
  secondLook: boolean,
  now: Date,
): Promise<void> {
  requireUndecided(sheet)
  const isOwn = sheet.recordedBy === actor.id
  if (isOwn) await requireSecondLook(tx, actor, sheet, secondLook, now)
  await keepDecision(tx, actor, sheet, { outcome: 'approved', secondLook: isOwn }, now)
}

/** @throws {ProblemError} `wrong-state`. */
export async function rejectSheet(
  tx: Tx,
  actor: Actor,
  sheet: Proposed,
  reason: string,
  now: Date,
): Promise<void> {
  requireUndecided(sheet)
  await keepDecision(tx, actor, sheet, { outcome: 'rejected', reason }, now)
}

function requireUndecided({ revision, decision }: Proposed): void {
  if (!decision) return
  throw wrongState(
    message('setup-problem.revisionDecided', {
      revision,
      outcome: decision.outcome,
      by: decision.decidedByName,
    }),
  )
}

async function keepDecision(
  tx: Tx,
  actor: Actor,
  { id, organizationId }: Proposed,
  decision: { readonly outcome: string; readonly reason?: string; readonly secondLook?: boolean },
  now: Date,
): Promise<void> {
  const by = { decidedAt: now, decidedBy: actor.id, decidedByName: actor.name }
  await tx.productSheetDecision.create({ data: { organizationId, sheetId: id, ...by, ...decision } })
}

async function requireSecondLook(
  tx: Tx,
  actor: Actor,
  { revision, recordedAt }: Proposed,
  secondLook: boolean,
  now: Date,
): Promise<void> {
  const others = await othersWhoApprove(tx, actor.id)
  if (others.length > 0)
    throw wrongState(
      message('setup-problem.ownRevision', { revision }),
      message('setup-problem.askToCompareFix', { people: { list: others, join: 'or' } }),
    )
  if (!(await isLaterDay(tx, recordedAt, now)))
    throw wrongState(
      message('setup-problem.ownRevisionToday', { revision }),
      message('setup-problem.compareTomorrowFix'),
    )
  if (!secondLook)
    throw wrongState(
      message('setup-problem.ownRevisionCompare', { revision }),
      message('setup-problem.secondLookFix'),
    )
}

/** Names of those besides one who could approve a sheet; some of them, where they are many. */
async function othersWhoApprove(tx: Tx, personId: string): Promise<string[]> {
  const rows = await tx.person.findMany({
    where: {
      id: { not: personId },
      disabledAt: null,
      memberships: { some: { shopId: null, role: { in: [...PERMISSIONS.manageCatalogue] } } },
    },
    select: { name: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    take: 3,
  })
  return rows.map(({ name }) => name)
}

/** A later day on the clock of every shop of the chain. */
async function isLaterDay(tx: Tx, recordedAt: Date, now: Date): Promise<boolean> {
  const shops = await tx.shop.findMany({ select: { timeZone: true }, distinct: ['timeZone'] })
  const zones = shops.length > 0 ? shops.map(({ timeZone }) => timeZone) : ['utc']
  return zones.every((zone) => dayIn(now, zone) > dayIn(recordedAt, zone))
}
