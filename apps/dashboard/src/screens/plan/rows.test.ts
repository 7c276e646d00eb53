import { expect, it } from 'vitest'
import { lanesOf } from './rows.ts'

const span = (from: number, until: number) => ({
  startsAt: new Date(from * 3_600_000).toISOString(),
  endsAt: new Date(until * 3_600_000).toISOString(),
})

it('uses one lane while nothing overlaps, and reuses a lane that is free again', () => {
  expect(lanesOf([span(0, 1), span(1, 2), span(2, 3)])).toEqual([0, 0, 0])
  expect(lanesOf([span(0, 4), span(1, 2), span(2, 3), span(2, 5)])).toEqual([0, 1, 1, 2])
})
