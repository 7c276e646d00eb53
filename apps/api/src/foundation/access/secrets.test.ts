import { describe, expect, it } from 'vitest'
import { hashPassword, hashSecret, newSecret, verifyNothing, verifyPassword } from './secrets.ts'

describe('passwords', () => {
  it('are verified against their hash, and nothing else', async () => {
    const hash = await hashPassword('clamp the whole length')
    expect(hash).toMatch(/^scrypt\$131072\$8\$1\$/)
    expect(await verifyPassword('clamp the whole length', hash)).toBe(true)
    expect(await verifyPassword('clamp the whole length ', hash)).toBe(false)
    expect(await verifyPassword('clamp the whole length', 'bcrypt$whatever')).toBe(false)
    expect(await verifyNothing('clamp the whole length')).toBe(false)
  })

  it('have a salt each, and are the same however an accent was typed', async () => {
    const [a, b] = await Promise.all([
      hashPassword('caf\u00e9 au lait bonds'),
      hashPassword('caf\u00e9 au lait bonds'),
    ])
    expect(a).not.toBe(b)
    expect(await verifyPassword('cafe\u0301 au lait bonds', a)).toBe(true)
  })
})

describe('secrets', () => {
  it('say what they open, are never the same, and are kept as a hash', () => {
    const secret = newSecret('token')
    expect(secret).toMatch(/^cc_token_[\w-]{43}$/)
    expect(newSecret('token')).not.toBe(secret)
    expect(hashSecret(secret)).toMatch(/^[0-9a-f]{64}$/)
  })
})
