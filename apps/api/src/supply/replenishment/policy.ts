import { message } from '@clampclock/messages'
import type { BodyOf, ReplenishmentPolicy, TransferLane, supplyRoutes } from '@clampclock/contracts'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { requireVersion } from '../../foundation/http/versions.ts'
import { announce } from '../../foundation/live/hub.ts'
import { forgetLevels } from './forget-levels.ts'

/** The database adds the row with the chain itself. */
export function policyOf(tx: Tx, organizationId: string): Promise<ReplenishmentPolicy> {
  return tx.replenishmentPolicy.findUniqueOrThrow({ where: { organizationId } })
}

export async function editPolicy(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof supplyRoutes.editReplenishmentPolicy>,
  version: number,
): Promise<ReplenishmentPolicy> {
  const organizationId = actor.organization.id
  const { currency, serviceLevel, reviewDays, waitingJobCents, keepingDayCents, packingCents } = body
  const { count } = await tx.replenishmentPolicy.updateMany({
    where: { organizationId, version },
    data: {
      ...(currency === undefined ? {} : { currency }),
      ...(serviceLevel === undefined ? {} : { serviceLevel }),
      ...(reviewDays === undefined ? {} : { reviewDays }),
      ...(waitingJobCents === undefined ? {} : { waitingJobCents }),
      ...(keepingDayCents === undefined ? {} : { keepingDayCents }),
      ...(packingCents === undefined ? {} : { packingCents }),
      version: { increment: 1 },
    },
  })
  const policy = await policyOf(tx, organizationId)
  requireVersion(count, policy.version)
  await forgetLevels(tx)
  await announce(tx, { organizationId, shopId: null, topic: 'stock' })
  return policy
}

export function listLanes(tx: Tx): Promise<TransferLane[]> {
  return tx.transferLane.findMany({ orderBy: [{ fromShopId: 'asc' }, { toShopId: 'asc' }] })
}

/** Setting the same twice is the same: so no version is asked for. */
export async function setLane(
  tx: Tx,
  actor: Actor,
  { fromShopId, toShopId }: { readonly fromShopId: string; readonly toShopId: string },
  body: BodyOf<typeof supplyRoutes.setTransferLane>,
): Promise<TransferLane> {
  if (fromShopId === toShopId)
    throw invalidField(
      'params.toShopId',
      message('stock-problem.sameShopLane'),
      message('stock-problem.anotherShopFix'),
    )
  for (const id of [fromShopId, toShopId])
    if (!(await tx.shop.findUnique({ where: { id } }))) throw notFound('shop', id)
  const organizationId = actor.organization.id
  const lane = await tx.transferLane.upsert({
    where: { fromShopId_toShopId: { fromShopId, toShopId } },
    create: { ...body, organizationId, fromShopId, toShopId },
    update: body,
  })
  await announce(tx, { organizationId, shopId: null, topic: 'stock' })
  return lane
}
