import { nameOf } from '../../foundation/words/kept.ts'
import { param } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { bayForecasts } from '../operations/bake-program.ts'
import { coldestC } from '../operations/planned-bake.ts'
import { bakeReasons } from '../bookings/bake.ts'
import { storedProgram } from '../../cure/index.ts'
import { judgeBooked } from '../bookings/vehicle-bake.ts'
import { shopById } from '../../foundation/shops/shops.ts'

const WITH_ORDER = {
  operation: { include: { repairOrder: true } },
} satisfies Prisma.PlannedOperationInclude
type PlannedBakeRow = Prisma.PlannedOperationGetPayload<{ include: typeof WITH_ORDER }>

/**
 * Rule 4, by the bonds as they are: also those of joints without operations, of which the planner knows less. A bake by its
 * program is worked out once more; what it takes then is what its operation has from now on.
 */
export async function reasonsAgainstBakes(tx: Tx, planId: string, now: Date): Promise<ProblemReason[]> {
  const bakes = await tx.plannedOperation.findMany({
    where: { planId, operation: { kind: 'bake', startedAt: null } },
    include: WITH_ORDER,
    orderBy: [{ startsAt: 'asc' }, { operationId: 'asc' }],
  })
  const reasons: ProblemReason[] = []
  for (const bake of bakes) {
    const { repairOrder } = bake.operation
    const operation = param(nameOf(bake.operation))
    const against = await reasonsAgainst(tx, bake, now)
    reasons.push(
      ...against.map(({ code, message: what, fix }) => ({
        code,
        message: message('reason.ofOrder', { operation, order: repairOrder.number, what: param(what) }),
        ...(fix === undefined
          ? {}
          : { fix: code === 'window-too-short' ? message('reason.planAgainFix') : fix }),
      })),
    )
  }
  return reasons
}

async function reasonsAgainst(
  tx: Tx,
  { startsAt, endsAt, operation }: PlannedBakeRow,
  now: Date,
): Promise<readonly ProblemReason[]> {
  const { id, shopId, repairOrderId, workMinutes, highestMetalC } = operation
  const bakeProgram = storedProgram(operation.bakeProgram)
  if (bakeProgram === null)
    return highestMetalC === null ? [] : bakeReasons(tx, repairOrderId, { startsAt, highestMetalC }, now)
  const { timeZone } = await shopById(tx, shopId)
  // As it is expected, where the plan took the careful side: a little colder by now is no reason to plan again.
  const elseStartC = coldestC(await bayForecasts(tx, shopId, timeZone, now), 'expectedC')
  const bake = { startsAt, endsAt, bakeProgram, metalStartC: null, elseStartC }
  const { reasons, peakMetalC } = await judgeBooked(tx, repairOrderId, bake, now)
  if (reasons.length > 0) return reasons
  const minutes = (endsAt.getTime() - startsAt.getTime()) / 60_000
  if (minutes !== workMinutes || peakMetalC !== highestMetalC)
    await tx.operation.update({
      where: { id },
      data: { workMinutes: minutes, highestMetalC: peakMetalC, version: { increment: 1 } },
    })
  return []
}
