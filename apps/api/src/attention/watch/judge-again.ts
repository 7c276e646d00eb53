import { recheckBySheets, runningBonds } from '../../cure/index.ts'
import type { SheetApproved } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { announce } from '../../foundation/live/hub.ts'
import { keepBayBooked } from '../../planning/index.ts'
import { raiseAlert } from '../alerts/raise.ts'
import { bondsToTell } from './watch-bonds.ts'

/**
 * A revision has just been approved: what runs on its product is told at once, keeps its bay for as long as it now needs it,
 * and the releases of the last month are looked at again.
 */
export async function judgeAgain(tx: Tx, { organizationId, productId, now }: SheetApproved): Promise<void> {
  const running = (await runningBonds(tx)).filter(({ sheet }) => sheet.productId === productId)
  if (running.length > 0) {
    const ids = new Set(running.map(({ id }) => id))
    for (const alert of await bondsToTell(tx, now))
      if (ids.has(alert.subjectId)) await raiseAlert(tx, { ...alert, organizationId, openedAt: now })
    for (const bond of running) {
      const { shopId, id: subjectId } = bond
      await keepBayBooked(tx, organizationId, bond, bond.joint.repairOrder.shop.timeZone, now)
      await announce(tx, { organizationId, shopId, topic: 'bonds', subjectId })
    }
  }
  await recheckBySheets(tx, organizationId, now)
}
