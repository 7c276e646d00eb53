import { createHash, randomBytes, scrypt, timingSafeEqual, type ScryptOptions } from 'node:crypto'
import { DEFAULT_PASSWORD_COST } from '../config/config.ts'
import { HashQueue } from './hash-queue.ts'

/** As the OWASP Password Storage Cheat Sheet has them; 128 MiB with the default cost. */
const BLOCK = { r: 8, p: 1 } as const
const KEY_BYTES = 32

/** 256 MiB at the default cost; those who wait are served within a few seconds on two cores. */
const queue = new HashQueue(2, 20)

let costOfNew = DEFAULT_PASSWORD_COST

/** Sets N of scrypt for the hashes that this process makes from now on; those that are there keep theirs. */
export function usePasswordCost(cost: number): void {
  costOfNew = cost
}

/**
 * `scrypt$N$r$p$salt$key`, so that the cost can be raised without locking anybody out. As with what follows, few are at
 * work at once.
 *
 * @throws {ProblemError} `overloaded` with Retry-After when too many wait already.
 */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(16)
  const cost = { N: costOfNew, ...BLOCK }
  const key = await derive(password, salt, cost)
  return ['scrypt', cost.N, cost.r, cost.p, salt.toString('base64url'), key.toString('base64url')].join('$')
}

export async function verifyPassword(password: string, hash: string): Promise<boolean> {
  const [scheme, N, r, p, salt, key] = hash.split('$')
  if (scheme !== 'scrypt' || !salt || !key) return false
  const wanted = Buffer.from(key, 'base64url')
  const got = await derive(password, Buffer.from(salt, 'base64url'), {
    N: Number(N),
    r: Number(r),
    p: Number(p),
  })
  return timingSafeEqual(wanted, got)
}

/** Takes as long as a real check, so that an unknown address is not told from a wrong password by the clock. */
export async function verifyNothing(password: string): Promise<false> {
  await derive(password, Buffer.alloc(16), { N: costOfNew, ...BLOCK })
  return false
}

function derive(password: string, salt: Buffer, cost: { N: number; r: number; p: number }): Promise<Buffer> {
  const options: ScryptOptions = { ...cost, maxmem: 256 * cost.N * cost.r }
  // NFKC: the same password typed on two keyboards is the same password (NIST SP 800-63B, 5.1.1.2).
  const typed = password.normalize('NFKC')
  return queue.run(
    () =>
      new Promise((resolve, reject) => {
        scrypt(typed, salt, KEY_BYTES, options, (error, key) => (error ? reject(error) : resolve(key)))
      }),
  )
}

/** A secret for a session or a token: 256 random bits after a prefix that says what it opens. */
export function newSecret(prefix: 'session' | 'token' | 'feed'): string {
  return `cc_${prefix}_${randomBytes(32).toString('base64url')}`
}

/** Secrets have full entropy, so one round of SHA-256 is enough to keep them from a reader of the database. */
export function hashSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex')
}
