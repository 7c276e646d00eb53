import { message } from '@clampclock/messages'
import ipaddr from 'ipaddr.js'
import { createHash } from 'node:crypto'
import type { Database, Tx } from '../database/database.ts'
import { ProblemError } from '../problems/problem-error.ts'

/** What is counted: how many failures are free, and after how long without one counting begins anew. */
export interface Counted {
  readonly free: number
  readonly forgottenAfterMs: number
}

const HOUR_MS = 3_600_000
/** One account from one address: somebody who mistypes, or who tries one door. */
const PAIR: Counted = { free: 5, forgottenAfterMs: HOUR_MS }
/**
 * One account from wherever: who tries from many addresses. With the cap below it comes to some hundred passwords a day
 * (NIST SP 800-63B-4, 3.2.2, takes 100 failures in a row as the most before an account is shut).
 */
const ACCOUNT: Counted = { free: 20, forgottenAfterMs: 24 * HOUR_MS }
/** One address, over all accounts: a shop's whole staff has one. */
const ADDRESS: Counted = { free: 50, forgottenAfterMs: HOUR_MS }

/** Nobody can shut somebody else out for longer at a time. */
const LONGEST_HOLD_SECONDS = 900
/** Where somebody signed in within so long, failures elsewhere don't hold that account. */
const KNOWN_DAYS = 30

/** Seconds for which the next attempt has to wait after so many failures: 0 while they are free, then twice as long each time. */
export function holdSeconds(failures: number, { free }: Counted): number {
  return failures < free ? 0 : Math.min(LONGEST_HOLD_SECONDS, 2 ** (failures - free))
}

/** The address as it is counted: of IPv6 the network of 64 bits, which one caller has for himself (RFC 6177). */
export function networkOf(address: string): string {
  if (!ipaddr.isValid(address)) return address
  const parsed = ipaddr.process(address)
  return parsed.kind() === 'ipv4' ? parsed.toString() : parsed.toByteArray().slice(0, 8).join('.')
}

export interface Attempt {
  /** The secret was right: the pair begins anew, and what was counted for this attempt is taken back. */
  readonly succeeded: () => Promise<void>
  /** Nothing was tried after all. */
  readonly withdrawn: () => Promise<void>
}

/**
 * Counts an attempt as failed before it is made, so that a thousand at once are no more than a thousand in a row.
 *
 * @throws {ProblemError} `too-many-requests` with Retry-After while the account, the address or both are held.
 */
export async function beginAttempt(
  database: Database,
  by: { readonly account: string; readonly address: string },
  now: Date,
): Promise<Attempt> {
  const network = networkOf(by.address)
  const pair = keyOf('pair', by.account, network)
  const account = keyOf('account', by.account)
  const address = keyOf('address', network)
  const counted = new Map([
    [pair, PAIR],
    [account, ACCOUNT],
    [address, ADDRESS],
  ])
  await database.prisma.$transaction(async (tx) => {
    const rows = await locked(tx, [...counted.keys()])
    const knownSince = now.getTime() - KNOWN_DAYS * 24 * HOUR_MS
    const isKnown = (rows.get(pair)?.succeededAt?.getTime() ?? 0) > knownSince
    const heldUntil = [...rows.values()]
      .filter(({ key }) => key !== account || !isKnown)
      .filter((row) => isHeld(row, now))
      .reduce((latest, row) => Math.max(latest, row.heldUntil.getTime()), 0)
    if (heldUntil > now.getTime()) throw held(Math.ceil((heldUntil - now.getTime()) / 1000))
    for (const [key, what] of counted) {
      const before = rows.get(key)
      const isForgotten = !before || now.getTime() - before.triedAt.getTime() > what.forgottenAfterMs
      await keep(tx, key, what, isForgotten ? 1 : before.failures + 1, now)
    }
  })
  const takeBack = (isSuccess: boolean) =>
    database.prisma.$transaction(async (tx) => {
      const rows = await locked(tx, [...counted.keys()])
      for (const { key, failures } of rows.values())
        await keep(tx, key, counted.get(key)!, isSuccess && key === pair ? 0 : Math.max(0, failures - 1), now)
      if (isSuccess) await tx.signInBackOff.update({ where: { key: pair }, data: { succeededAt: now } })
    })
  return { succeeded: () => takeBack(true), withdrawn: () => takeBack(false) }
}

/** What nobody was held by for a month: called once a day. */
export async function forgetBackOff({ prisma }: Database, now: Date): Promise<void> {
  const before = new Date(now.getTime() - KNOWN_DAYS * 24 * HOUR_MS)
  await prisma.signInBackOff.deleteMany({ where: { triedAt: { lt: before } } })
}

/** A clock that was set back must not shut anybody out for longer than a hold lasts, nor who was never held. */
function isHeld(
  { triedAt, heldUntil }: { readonly triedAt: Date; readonly heldUntil: Date },
  now: Date,
): boolean {
  const leftMs = heldUntil.getTime() - now.getTime()
  return heldUntil > triedAt && leftMs > 0 && leftMs <= LONGEST_HOLD_SECONDS * 1000
}

function held(seconds: number): ProblemError {
  return new ProblemError('too-many-requests', message('setup-problem.signInHeld', { seconds }), [], seconds)
}

/** The rows of the keys, each kept from everybody else until the transaction is over, also where there is none yet. */
async function locked(tx: Tx, keys: readonly string[]) {
  // In one order, or two attempts would wait for one another.
  for (const key of keys.toSorted())
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${key}, 7246003))`
  const rows = await tx.signInBackOff.findMany({ where: { key: { in: [...keys] } } })
  return new Map(rows.map((row) => [row.key, row]))
}

async function keep(tx: Tx, key: string, what: Counted, failures: number, now: Date): Promise<void> {
  const heldUntil = new Date(now.getTime() + holdSeconds(failures, what) * 1000)
  const data = { failures, triedAt: now, heldUntil }
  await tx.signInBackOff.upsert({ where: { key }, create: { key, ...data }, update: data })
}

function keyOf(...parts: readonly string[]): string {
  return createHash('sha256').update(JSON.stringify(parts)).digest('base64url')
}
