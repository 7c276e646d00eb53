import type { Tx } from '../../foundation/database/database.ts'

/** After a change of what levels are computed from: they are computed anew at the next look. */
export async function forgetLevels(tx: Tx): Promise<void> {
  await tx.shop.updateMany({ data: { levelsComputedAt: null } })
}
