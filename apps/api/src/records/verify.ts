import type { Database } from '../database/database.ts'
import { CHAIN_START, faultOf } from './chain.ts'

export interface RecordFault {
  readonly shopId: string
  /** Of the first broken link; null where a bond and its record disagree. */
  readonly sequence: bigint | null
  readonly bondId: string
  readonly what: string
}

export interface Verified {
  readonly entries: number
  readonly faults: readonly RecordFault[]
}

const AT_ONCE = 1000

/**
 * Goes over the chain of every shop and names the first broken link of each; then holds the bonds against their records,
 * since entries cut off the end leave the rest of a chain whole. Reads as the owner, over every chain of shops.
 */
export async function verifyRecords(database: Database): Promise<Verified> {
  const shops = await database.prisma.bondRecordEntry.groupBy({ by: ['shopId'], orderBy: { shopId: 'asc' } })
  const faults: RecordFault[] = []
  let entries = 0
  for (const { shopId } of shops) {
    const { count, fault } = await verifyShop(database, shopId)
    entries += count
    if (fault) faults.push(fault)
  }
  return { entries, faults: [...faults, ...(await bondsThatDisagree(database))] }
}

async function verifyShop(
  { prisma }: Database,
  shopId: string,
): Promise<{ count: number; fault: RecordFault | null }> {
  let before = { sequence: 0n, hash: CHAIN_START }
  for (;;) {
    const page = await prisma.bondRecordEntry.findMany({
      where: { shopId, sequence: { gt: before.sequence } },
      orderBy: { sequence: 'asc' },
      take: AT_ONCE,
    })
    for (const entry of page) {
      const missing =
        entry.sequence === before.sequence + 1n ? null : `entry ${before.sequence + 1n} is missing before it`
      const what = missing ?? faultOf(entry, before.hash)
      if (what) {
        const { sequence, bondId } = entry
        return { count: Number(before.sequence), fault: { shopId, sequence, bondId, what } }
      }
      before = entry
    }
    if (page.length < AT_ONCE) return { count: Number(before.sequence), fault: null }
  }
}

/** Bonds made before records were chained have none, and are left out. */
function bondsThatDisagree({ prisma }: Database): Promise<RecordFault[]> {
  return prisma.$queryRaw<RecordFault[]>`
    with told as (
      select b.id, b.shop_id, b.applied_at, b.clamped_at, b.released_at, b.abandoned_at,
             max(e.at) filter (where e.kind = 'applied') as applied, max(e.at) filter (where e.kind = 'clamped') as clamped,
             max(e.at) filter (where e.kind = 'released') as released, max(e.at) filter (where e.kind = 'abandoned') as abandoned,
             count(*) filter (where e.kind = 'reading') as readings, count(*) filter (where e.kind = 'incident') as incidents,
             count(*) filter (where e.kind = 'disposition') as dispositions
        from bond b join bond_record_entry e on e.bond_id = b.id
       group by b.id
    )
    select shop_id::text as "shopId", null::bigint as sequence, id::text as "bondId", 'the bond and its record disagree' as what
      from told
     where applied_at is distinct from applied or clamped_at is distinct from clamped
        or released_at is distinct from released or abandoned_at is distinct from abandoned
        -- The first reading is told with the application.
        or readings <> (select count(*) - 1 from panel_reading r where r.bond_id = told.id)
        or incidents <> (select count(*) from incident i where i.bond_id = told.id)
        or dispositions <> (select count(*) from disposition d join incident i on i.id = d.incident_id where i.bond_id = told.id)
     order by 1, 3`
}
