import { inEnglish } from '../../foundation/words/words.ts'
import { message, type Message } from '@clampclock/messages'
import type { Database } from '../../foundation/database/database.ts'
import { CHAIN_START, CHANGED, faultOf, isAsWritten } from './chain.ts'
import { COMPARERS, differencesOf } from './compare.ts'
import { TOLD } from './tables.ts'

export interface RecordFault {
  readonly shopId: string
  /** Of the first broken link; null where a bond's tables and its record disagree. */
  readonly sequence: bigint | null
  /** null: not about one bond. */
  readonly bondId: string | null
  /** In English, for whoever runs the service. */
  readonly what: string
}

/** The latest entry of a shop's chain. Kept elsewhere, it shows a chain that was cut off or written anew. */
export interface Head {
  readonly shopId: string
  readonly shopName: string
  readonly sequence: bigint
  readonly hash: string
}

export interface Verified {
  readonly bonds: number
  readonly entries: number
  readonly faults: readonly RecordFault[]
  readonly heads: readonly Head[]
  /** Entries of kinds whose facts are compared with nothing, by kind. */
  readonly notCompared: Readonly<Record<string, number>>
}

const AT_ONCE = 1000
const BONDS_AT_ONCE = 200

/**
 * Goes over the chain of every shop and names the first broken link of each; then over every bond and joint, and names
 * what the tables hold otherwise than the entries say. Reads as the owner of the tables, over every chain of shops.
 *
 * @param kept Hashes of entries that were kept elsewhere: each must still be in a chain.
 */
export async function verifyRecords(database: Database, kept: readonly string[] = []): Promise<Verified> {
  const shops = await database.prisma.shop.findMany({
    orderBy: { id: 'asc' },
    select: { id: true, name: true },
  })
  const faults: RecordFault[] = []
  const heads: Head[] = []
  const lost = new Set(kept)
  let entries = 0
  for (const shop of shops) {
    const { count, fault, head } = await verifyShop(database, shop.id, lost)
    entries += count
    if (fault) faults.push(fault)
    if (head) heads.push({ ...head, shopId: shop.id, shopName: shop.name })
  }
  for (const hash of lost)
    faults.push({
      shopId: '',
      sequence: null,
      bondId: null,
      what: inEnglish(message('record-fault.headLost', { hash })),
    })
  const compared = await compareBonds(database, (shopId, sequence) =>
    faults.some((fault) => fault.shopId === shopId && fault.sequence === sequence),
  )
  return {
    entries,
    heads,
    ...compared,
    faults: [
      ...faults,
      ...compared.faults,
      ...(await missingAttempts(database)),
      ...(await exchangedPhotos(database)),
    ],
  }
}

async function verifyShop(
  { prisma }: Database,
  shopId: string,
  lost: Set<string>,
): Promise<{ count: number; fault: RecordFault | null; head: { sequence: bigint; hash: string } | null }> {
  let before = { sequence: 0n, hash: CHAIN_START }
  for (;;) {
    const page = await prisma.bondRecordEntry.findMany({
      where: { shopId, sequence: { gt: before.sequence } },
      orderBy: { sequence: 'asc' },
      take: AT_ONCE,
    })
    for (const entry of page) {
      const missing =
        entry.sequence === before.sequence + 1n
          ? null
          : message('record-fault.missing', { sequence: String(before.sequence + 1n) })
      const what = missing ?? faultOf(entry, before.hash)
      if (what) {
        const { sequence, bondId } = entry
        return {
          count: Number(before.sequence),
          fault: { shopId, sequence, bondId, what: inEnglish(what) },
          head: null,
        }
      }
      lost.delete(entry.hash)
      before = entry
    }
    if (page.length < AT_ONCE) {
      const { sequence, hash } = before
      return { count: Number(sequence), fault: null, head: sequence > 0n ? { sequence, hash } : null }
    }
  }
}

/** `isNamed`: of an entry, whether it was named as the first broken link of its shop. */
async function compareBonds(
  { prisma }: Database,
  isNamed: (shopId: string, sequence: bigint) => boolean,
): Promise<Pick<Verified, 'bonds' | 'faults' | 'notCompared'>> {
  const faults: RecordFault[] = []
  const notCompared: Record<string, number> = {}
  let bonds = 0
  let after: string | undefined
  for (;;) {
    const page = await prisma.bond.findMany({
      ...(after === undefined ? {} : { cursor: { id: after }, skip: 1 }),
      orderBy: { id: 'asc' },
      take: BONDS_AT_ONCE,
      include: TOLD,
    })
    for (const bond of page) {
      bonds += 1
      const { id: bondId, shopId } = bond
      const fault = (what: Message) => faults.push({ shopId, sequence: null, bondId, what: inEnglish(what) })
      if (bond.bondRecordEntries.length === 0) {
        fault(message('record-fault.noRecord'))
        continue
      }
      for (const { kind } of bond.bondRecordEntries)
        if (!(kind in COMPARERS)) notCompared[kind] = (notCompared[kind] ?? 0) + 1
      // What was changed in an entry says nothing of the tables: the entry itself is named.
      const changed = bond.bondRecordEntries.filter((entry) => !isAsWritten(entry))
      for (const { sequence } of changed)
        if (!isNamed(shopId, sequence)) faults.push({ shopId, sequence, bondId, what: inEnglish(CHANGED) })
      if (changed.length === 0) differencesOf(bond).forEach((each) => fault(each))
    }
    after = page.at(-1)?.id
    if (page.length < BONDS_AT_ONCE) return { bonds, faults, notCompared }
  }
}

/** A photo stands beside the hash that its entry has. */
function exchangedPhotos({ prisma }: Database): Promise<RecordFault[]> {
  return prisma.$queryRaw<RecordFault[]>`
    select i.shop_id::text as "shopId", null::bigint as sequence, x.bond_id::text as "bondId",
           'inspection ' || i.id || '.photo: is not the one that was hashed' as what
      from inspection i join incident x on x.id = i.incident_id
     where i.photo is not null and encode(sha256(i.photo), 'hex') <> i.photo_sha256
    union all
    select a.shop_id::text, null, a.bond_id::text, 'attachment ' || a.id || '.content: is not the one that was hashed'
      from attachment a
     where a.kind = 'photo' and encode(sha256(a.content), 'hex') is distinct from a.sha256
     order by 1, 3, 4`
}

/** Attempts at a joint are numbered without a gap: a bond that was taken out with its record leaves one. */
function missingAttempts({ prisma }: Database): Promise<RecordFault[]> {
  return prisma.$queryRaw<RecordFault[]>`
    select shop_id::text as "shopId", null::bigint as sequence, null::text as "bondId",
           'joint ' || joint_id || ': has ' || count(*) || ' bonds, and the latest is attempt ' || max(attempt) as what
      from bond group by shop_id, joint_id having count(*) <> max(attempt)
     order by 1, 4`
}
