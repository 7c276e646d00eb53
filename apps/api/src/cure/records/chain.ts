import { message, type Message, type Told } from '@clampclock/messages'
import { createHash } from 'node:crypto'
import type { RecordEntryKind } from '@clampclock/contracts'
import type { Tx } from '../../foundation/database/database.ts'
import type { BondRecordEntry } from '../../generated/prisma/client.ts'
import { canonicalJson } from './canonical-json.ts'

export const CHANGED = message('record-fault.changed')

/** What comes before the first entry of a shop. */
export const CHAIN_START = '0'.repeat(64)

/** Something that happened to a bond; `facts` always say by whom. */
export interface RecordEvent {
  readonly kind: RecordEntryKind
  readonly at: Date
  readonly facts: Readonly<Record<string, unknown>> & { readonly by: string }
}

export interface RecordedBond {
  readonly id: string
  readonly organizationId: string
  readonly shopId: string
}

/**
 * Writes events into the chain of the shop, in the transaction of what they tell of. The shop's row is locked until
 * that ends, so that two writers chain one after the other; the database refuses a fork besides.
 *
 * It comes before bookings are touched, in every path, so that no two writers wait for each other.
 */
export async function appendToRecord(
  tx: Tx,
  { id: bondId, organizationId, shopId }: RecordedBond,
  now: Date,
  events: readonly RecordEvent[],
): Promise<void> {
  if (events.length === 0) return
  await tx.$queryRaw`select 1 from shop where id = ${shopId}::uuid for no key update`
  const last = await tx.bondRecordEntry.findFirst({
    where: { shopId },
    orderBy: { sequence: 'desc' },
    select: { sequence: true, hash: true },
  })
  let sequence = last?.sequence ?? 0n
  let previousHash = last?.hash ?? CHAIN_START
  const entries: BondRecordEntry[] = []
  for (const { kind, at, facts } of events) {
    sequence += 1n
    const entry = {
      organizationId,
      shopId,
      sequence,
      bondId,
      kind,
      at,
      recordedAt: now,
      payload: canonicalJson(facts),
      previousHash,
    }
    const hash = hashOf(entry)
    entries.push({ ...entry, hash })
    previousHash = hash
  }
  await tx.bondRecordEntry.createMany({ data: entries })
}

/**
 * What the service says of itself, for the facts of an entry: as text, which no answer puts into other words, so that its
 * hash stays what it was made of. Nothing where a person wrote it.
 */
export function recordedSaid(told: Told | undefined): { readonly said?: string } {
  return told === undefined || typeof told === 'string' ? {} : { said: JSON.stringify(told) }
}

/** What `recordedSaid` kept; undefined where there is none that can be read. */
export function saidIn({ said }: Readonly<Record<string, unknown>>): Message | undefined {
  try {
    return typeof said === 'string' ? (JSON.parse(said) as Message) : undefined
  } catch {
    return undefined
  }
}

/** SHA-256, in hex, over everything of an entry and the hash before it. */
function hashOf(entry: Omit<BondRecordEntry, 'hash'>): string {
  const { previousHash, organizationId, shopId, sequence, bondId, kind, at, recordedAt, payload } = entry
  const sealed = [
    previousHash,
    organizationId,
    shopId,
    String(sequence),
    bondId,
    kind,
    at,
    recordedAt,
    payload,
  ]
  return createHash('sha256').update(canonicalJson(sealed)).digest('hex')
}

/** Whether an entry still is what was hashed. */
export function isAsWritten(entry: BondRecordEntry): boolean {
  return entry.hash === hashOf(entry)
}

/** What is wrong with an entry that follows one with this hash; null when nothing is. */
export function faultOf(entry: BondRecordEntry, hashBefore: string): Message | null {
  if (entry.previousHash !== hashBefore) return message('record-fault.doesNotFollow')
  if (!isAsWritten(entry)) return CHANGED
  return null
}
