import { expect, it } from 'vitest'
import { wishFor } from './wish-for.ts'

/** From 16:00 until 08:00: an hour and a half of work with a night in it. */
const OVER_NIGHT = {
  operationId: 'paint',
  startsAt: '2031-05-05T20:00:00.000Z',
  workMinutes: 90,
  technicianIds: ['ann', 'ben'],
}
const drag = (minutes: number, rowId = 'bay-1') => ({ minutes, isResize: false, rowId })
const edge = (minutes: number) => ({ minutes, isResize: true, rowId: 'bay-1' })

it('lengthens the work, whatever breaks lie in it, and leaves something of it', () => {
  const on = { kind: 'places', from: 'bay-1' } as const
  const { operationId, startsAt } = OVER_NIGHT
  expect(wishFor(OVER_NIGHT, on, edge(15))).toEqual({ operationId, startsAt, workMinutes: 105 })
  expect(wishFor(OVER_NIGHT, on, edge(-30))).toMatchObject({ workMinutes: 60 })
  expect(wishFor(OVER_NIGHT, on, edge(-400))).toMatchObject({ workMinutes: 5 })
})

it('moves it in time, to another place, or to somebody else', () => {
  const { operationId } = OVER_NIGHT
  const startsAt = '2031-05-05T20:30:00.000Z'
  expect(wishFor(OVER_NIGHT, { kind: 'places', from: 'bay-1' }, drag(30))).toEqual({ operationId, startsAt })
  expect(wishFor(OVER_NIGHT, { kind: 'places', from: 'bay-1' }, drag(30, 'bay-2'))).toEqual({
    operationId,
    startsAt,
    placeId: 'bay-2',
  })
  expect(wishFor(OVER_NIGHT, { kind: 'people', from: 'ben' }, drag(30, 'cat'))).toEqual({
    operationId,
    startsAt,
    technicianIds: ['ann', 'cat'],
  })
})
