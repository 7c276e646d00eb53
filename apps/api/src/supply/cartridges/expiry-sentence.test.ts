import { effectiveExpiry } from '@clampclock/stock'
import { expect, it } from 'vitest'
import { inEnglish } from '../../foundation/words/words.ts'
import { expirySentence } from './expiry-sentence.ts'

const HOUR = 3_600_000
const life = {
  printedExpiry: '2031-05-31',
  timeZone: 'America/New_York',
  openedAtMs: null,
  openLifeDays: 30,
  warmStorageLossMs: 0,
}

it.each([
  life,
  { ...life, openedAtMs: Date.parse('2031-03-01T02:00:00Z') },
  { ...life, openedAtMs: Date.parse('2031-03-01T15:00:00Z'), openLifeDays: 1 },
  ...[1, 46, 46.8, 57, 264].map((hours) => ({ ...life, warmStorageLossMs: hours * HOUR })),
])('says in English what the reason of the expiry says: %j', (each) => {
  const { limit, reason } = effectiveExpiry(each)
  expect(inEnglish(expirySentence(each, limit))).toBe(reason)
})
