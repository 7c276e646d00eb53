import type { Tx } from '../../foundation/database/database.ts'
import { dateOf, dayIn } from '../../foundation/http/dates.ts'
import { RECENT_DAYS } from '../estimates/judging-sheets.ts'
import { recheckReleases } from './recheck.ts'

const DAY_MS = 86_400_000

/**
 * Looks again, once, at the releases of the last month of each product that has a revision which has begun to count: by
 * approval, or because its day has come in every shop of the chain. One that was too early by it becomes an incident.
 *
 * @returns ids of the bonds that were found to have been released too early.
 */
export async function recheckBySheets(tx: Tx, organizationId: string, now: Date): Promise<string[]> {
  const shops = await tx.shop.findMany({ select: { timeZone: true }, distinct: ['timeZone'] })
  const days = shops.map(({ timeZone }) => dayIn(now, timeZone)).toSorted()
  const today = dateOf(days[0] ?? dayIn(now, 'utc'))
  const sheets = await tx.productSheet.findMany({
    where: {
      decision: { outcome: 'approved', recheck: null },
      OR: [{ validFrom: null }, { validFrom: { lte: today } }],
    },
    select: { id: true, productId: true },
    orderBy: { id: 'asc' },
  })
  const early: string[] = []
  const since = new Date(now.getTime() - RECENT_DAYS * DAY_MS)
  for (const productId of new Set(sheets.map((sheet) => sheet.productId))) {
    const where = { sheet: { productId }, releasedAt: { gte: since } }
    early.push(...(await recheckReleases(tx, where, now, ({ slower }) => slower !== null)))
  }
  await tx.productSheetRecheck.createMany({
    data: sheets.map(({ id }) => ({ organizationId, sheetId: id, recheckedAt: now })),
    skipDuplicates: true,
  })
  return early
}
