import { describe, expect, it } from 'vitest'
import { shiftDay } from '../../lib/instants.ts'
import { placeIn, spanOf, ticksOf } from './time-scale.ts'

const denver = 'America/Denver'
const hoursOf = ({ startMs, endMs }: { startMs: number; endMs: number }) => (endMs - startMs) / 3_600_000

describe('spanOf', () => {
  it('is 23 h long on the day the clocks go forward, and 25 h when they go back', () => {
    // US changes of 2031: second Sunday of March and first of November (Energy Policy Act of 2005).
    expect(hoursOf(spanOf('2031-03-09', 1, denver))).toBe(23)
    expect(hoursOf(spanOf('2031-11-02', 1, denver))).toBe(25)
    expect(hoursOf(spanOf('2031-11-01', 7, denver))).toBe(7 * 24 + 1)
  })
})

describe('ticksOf', () => {
  it("marks the shop's own hours, and none that does not exist", () => {
    const labels = ticksOf(spanOf('2031-03-09', 1, denver), 1, denver).map((tick) => tick.label)
    expect(labels[0]).toBe('Sun 9 Mar')
    expect(labels).not.toContain('02:00')
    expect(labels).toContain('03:00')
  })
  it('starts every day with the day', () => {
    const days = ticksOf(spanOf('2031-05-04', 3, denver), 6, denver).filter((tick) => tick.isDay)
    expect(days.map((tick) => tick.label)).toEqual(['Sun 4 May', 'Mon 5 May', 'Tue 6 May'])
  })
})

describe('placeIn', () => {
  const span = { startMs: 0, endMs: 100 }
  it('cuts off what lies outside', () => {
    expect(placeIn(span, -50, 25)).toEqual({ left: 0, width: 0.25 })
    expect(placeIn(span, 75, 300)).toEqual({ left: 0.75, width: 0.25 })
  })
  it('is nothing for a period that only touches', () => {
    expect(placeIn(span, -10, 0)).toBeUndefined()
    expect(placeIn(span, 100, 110)).toBeUndefined()
  })
})

it('steps over the end of a month', () => {
  expect(shiftDay('2031-05-31', 1)).toBe('2031-06-01')
  expect(shiftDay('2031-03-01', -1)).toBe('2031-02-28')
})
