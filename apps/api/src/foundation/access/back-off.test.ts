import { expect, it } from 'vitest'
import { holdSeconds, networkOf } from './back-off.ts'

it('holds twice as long with each failure, up to a quarter of an hour', () => {
  const counted = { free: 5, forgottenAfterMs: 1 }
  const held = [0, 4, 5, 6, 7, 14, 15, 10_000].map((failures) => holdSeconds(failures, counted))
  expect(held).toEqual([0, 0, 1, 2, 4, 512, 900, 900])
})

it.each([
  ['127.0.0.1', '::ffff:127.0.0.1'],
  ['2001:db8::1', '2001:db8:0:0:ffff:ffff:ffff:ffff'],
])('counts %s and %s as one caller', (one, other) => {
  expect(networkOf(one)).toBe(networkOf(other))
})

it.each([
  ['127.0.0.1', '127.0.0.2'],
  ['2001:db8::1', '2001:db8:0:1::1'],
])('counts %s and %s as two', (one, other) => {
  expect(networkOf(one)).not.toBe(networkOf(other))
})
