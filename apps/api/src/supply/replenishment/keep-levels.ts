import type { Tx } from '../../foundation/database/database.ts'
import { toUl } from '../../foundation/database/volumes.ts'
import { standingsOf } from './levels.ts'
import { policyOf } from './policy.ts'

/** A few times a day: a day of use changes a year's average little. */
const FRESH_MS = 6 * 3_600_000
/** Computed at one look; a big chain goes round in a few minutes. */
const SHOPS_AT_ONCE = 10

/** Computes the levels of the shops whose own are oldest, if they are old. */
export async function refreshLevels(tx: Tx, organizationId: string, now: Date): Promise<void> {
  const old = new Date(now.getTime() - FRESH_MS)
  const shops = await tx.shop.findMany({
    where: { OR: [{ levelsComputedAt: null }, { levelsComputedAt: { lt: old } }] },
    orderBy: { levelsComputedAt: { sort: 'asc', nulls: 'first' } },
    take: SHOPS_AT_ONCE,
    select: { id: true },
  })
  if (shops.length === 0) return
  const policy = await policyOf(tx, organizationId)
  for (const { id: shopId } of shops) {
    const standings = await standingsOf(tx, policy, shopId, now)
    await tx.reorderLevel.deleteMany({ where: { shopId } })
    await tx.reorderLevel.createMany({
      data: standings.flatMap(({ product, levels }) =>
        levels
          ? [
              {
                organizationId,
                shopId,
                productId: product.id,
                reorderPointUl: Math.max(0, toUl(levels.reorderPointMl)),
                orderUpToUl: toUl(levels.orderUpToMl),
                computedAt: now,
              },
            ]
          : [],
      ),
    })
    await tx.shop.update({ where: { id: shopId }, data: { levelsComputedAt: now } })
  }
}
