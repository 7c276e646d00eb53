import { RecordedApplication, type BondRecord, type RecordEntry } from '@clampclock/contracts'
import { requireIn, type Actor } from '../access/actor.ts'
import { bondRow } from '../bonds/bond-store.ts'
import { curveOf } from '../bonds/curve.ts'
import { toBond } from '../bonds/to-bond.ts'
import type { Tx } from '../database/database.ts'
import type { BondRecordEntry } from '../generated/prisma/client.ts'
import { shopById } from '../shops/shops.ts'
import { CHAIN_START, faultOf } from './chain.ts'
import { CAUTIONS } from './facts.ts'

/** Everything that proves a bond: as it was written down then, and the curve from the readings. */
export async function getBondRecord(tx: Tx, actor: Actor, bondId: string, now: Date): Promise<BondRecord> {
  const row = await bondRow(tx, bondId)
  requireIn(actor, 'readShop', row.shopId)
  const { timeZone } = await shopById(tx, row.shopId)
  const rows = await tx.bondRecordEntry.findMany({ where: { bondId }, orderBy: { sequence: 'asc' } })
  const entries = rows.map(toEntry)
  const applied = RecordedApplication.safeDecode(
    (entries.find(({ kind }) => kind === 'applied')?.facts ?? {}) as never,
  )
  const fault = await faultIn(tx, rows)
  return {
    bond: await toBond(tx, row, timeZone, now),
    application: applied.data ?? null,
    curve: await curveOf(tx, row, timeZone, now),
    entries,
    chain: { intact: fault === null, fault },
    cautions: CAUTIONS,
  }
}

function toEntry(row: BondRecordEntry): RecordEntry {
  const facts = factsOf(row.payload)
  const { by } = facts
  return {
    sequence: Number(row.sequence),
    kind: row.kind as RecordEntry['kind'],
    at: row.at,
    recordedAt: row.recordedAt,
    by: typeof by === 'string' ? by : '',
    facts,
    hash: row.hash,
    previousHash: row.previousHash,
  }
}

/** An entry that somebody meddled with must still be shown, and be told as broken. */
function factsOf(payload: string): Record<string, unknown> {
  try {
    const facts: unknown = JSON.parse(payload)
    return typeof facts === 'object' && facts !== null ? (facts as Record<string, unknown>) : {}
  } catch {
    return {}
  }
}

/** The first entry of this bond that does not fit its hash, or the entry before it in the chain of the shop. */
async function faultIn(tx: Tx, rows: readonly BondRecordEntry[]): Promise<string | null> {
  if (rows.length === 0) return 'The bond was made before records were chained'
  const before = await tx.bondRecordEntry.findMany({
    where: { shopId: rows[0]!.shopId, sequence: { in: rows.map(({ sequence }) => sequence - 1n) } },
    select: { sequence: true, hash: true },
  })
  const hashes = new Map(before.map(({ sequence, hash }) => [sequence, hash]))
  for (const row of rows) {
    const hash = row.sequence === 1n ? CHAIN_START : (hashes.get(row.sequence - 1n) ?? '')
    const fault = faultOf(row, hash)
    if (fault) return `Entry ${row.sequence} ${fault}`
  }
  return null
}
