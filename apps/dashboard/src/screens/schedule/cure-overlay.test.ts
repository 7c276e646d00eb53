import { expect, it } from 'vitest'
import { cureOverlay } from './cure-overlay.ts'

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
