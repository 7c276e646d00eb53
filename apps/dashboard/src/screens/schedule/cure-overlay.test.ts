import { describe, expect, it } from 'vitest'
import { cureOverlay, cureText } from './cure-overlay.ts'

const ms = (hour: number) => Date.parse('2031-05-04T00:00:00Z') + hour * 3_600_000
const at = (hour: number) => new Date(ms(hour)).toISOString()
const booking = { startsAt: at(8), endsAt: at(17) }

it('draws nothing where nothing cures', () => {
  expect(cureOverlay({ ...booking, curingUntil: null }, ms(9))).toEqual({ kind: 'none' })
})

it('draws from now to the conservative ready time', () => {
  expect(cureOverlay({ ...booking, curingUntil: { kind: 'at', at: at(15) } }, ms(10))).toEqual({
    kind: 'until',
    fromMs: ms(10),
    untilMs: ms(15),
    overrunFromMs: null,
  })
})

it('marks the part beyond the end of the booking', () => {
  const overlay = cureOverlay({ ...booking, curingUntil: { kind: 'at', at: at(20) } }, ms(10))
  expect(overlay).toMatchObject({ overrunFromMs: ms(17), untilMs: ms(20) })
})

it('is open-ended where no time can be given', () => {
  expect(cureOverlay({ ...booking, curingUntil: { kind: 'never', reason: 'tooCold' } }, ms(10)).kind).toBe(
    'open',
  )
})

describe('cureText', () => {
  const until = (hour: number) => ({ ...booking, curingUntil: { kind: 'at' as const, at: at(hour) } })
  it('says until when, and whether that is past the booking', () => {
    expect(cureText(until(15), 'utc', ms(10))).toBe('Cures until Sun 4 May, 15:00')
    expect(cureText(until(20), 'utc', ms(10))).toContain('past the end of its booking')
  })
  it('says since when, once it is over', () => {
    expect(cureText(until(9), 'utc', ms(10))).toBe('Handling strength since Sun 4 May, 09:00')
  })
})
