import { message, type Message } from '@clampclock/messages'
import { expirySentence } from '../../supply/index.ts'
import { RecordedApplication, type BondRecord, type RecordEntry } from '@clampclock/contracts'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import { bondRow } from '../estimates/bond-store.ts'
import { curveOf } from '../estimates/curve.ts'
import { toBond } from '../estimates/to-bond.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { BondRecordEntry } from '../../generated/prisma/client.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { CHAIN_START, faultOf, saidIn } from './chain.ts'
import { differencesOf, factsOf } from './compare.ts'
import { CAUTIONS } from './cautions.ts'
import { TOLD } from './tables.ts'

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
  const fault = (await faultIn(tx, rows)) ?? (await differenceIn(tx, bondId))
  return {
    bond: await toBond(tx, row, timeZone, now),
    application: applied.data
      ? { ...applied.data, cartridges: applied.data.cartridges.map(withExpiry) }
      : null,
    curve: await curveOf(tx, row, timeZone, now),
    entries,
    chain: { intact: fault === null, fault, head: await headOf(tx, row.shopId) },
    cautions: [...CAUTIONS],
  }
}

type RecordedCartridge = RecordedApplication['cartridges'][number]

/** Why it expires when it does, in the reader's words where the record knows what that follows from. */
function withExpiry({ life, ...cartridge }: RecordedCartridge): RecordedCartridge {
  if (life === undefined) return cartridge
  const { limit, openedAt, ...rest } = life
  const { printedExpiry } = cartridge
  const of = { ...rest, printedExpiry, openedAtMs: openedAt?.getTime() ?? null }
  return { ...cartridge, life, expiryReason: expirySentence(of, limit) }
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
    reason:
      saidIn(facts) ??
      (typeof facts['reason'] === 'string' && facts['reason'] !== '' ? facts['reason'] : null),
    facts,
    hash: row.hash,
    previousHash: row.previousHash,
  }
}

/** The first thing that a table holds otherwise than the entries say. */
async function differenceIn(tx: Tx, bondId: string): Promise<Message | null> {
  const bond = await tx.bond.findUniqueOrThrow({ where: { id: bondId }, include: TOLD })
  return differencesOf(bond)[0] ?? null
}

async function headOf(tx: Tx, shopId: string): Promise<BondRecord['chain']['head']> {
  const head = await tx.bondRecordEntry.findFirst({
    where: { shopId },
    orderBy: { sequence: 'desc' },
    select: { sequence: true, hash: true },
  })
  return head && { sequence: Number(head.sequence), hash: head.hash }
}

/** The first entry of this bond that does not fit its hash, or the entry before it in the chain of the shop. */
async function faultIn(tx: Tx, rows: readonly BondRecordEntry[]): Promise<Message | null> {
  if (rows.length === 0) return message('record-fault.notChained')
  const before = await tx.bondRecordEntry.findMany({
    where: { shopId: rows[0]!.shopId, sequence: { in: rows.map(({ sequence }) => sequence - 1n) } },
    select: { sequence: true, hash: true },
  })
  const hashes = new Map(before.map(({ sequence, hash }) => [sequence, hash]))
  for (const row of rows) {
    const hash = row.sequence === 1n ? CHAIN_START : (hashes.get(row.sequence - 1n) ?? '')
    const fault = faultOf(row, hash)
    if (fault)
      return message('record-fault.entry', { sequence: String(row.sequence), fault: { message: fault } })
  }
  return null
}
