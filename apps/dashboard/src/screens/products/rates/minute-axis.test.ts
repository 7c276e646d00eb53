import { expect, it } from 'vitest'
import { minutesRange, minuteTicks, shortMinutes } from './minute-axis.ts'

it('marks round times within the plot', () => {
  expect(minuteTicks(2, 1500).map(shortMinutes)).toEqual([
    '3 min',
    '10 min',
    '30 min',
    '1 h',
    '3 h',
    '8 h',
    '1 d',
  ])
})

it('ranges over every series and leaves the temperature out', () => {
  expect(
    minutesRange([
      { temperatureC: 500, workTime: 4 },
      { temperatureC: 1, fullCureBeyond: 90 },
    ]),
  ).toEqual({
    min: 4,
    max: 90,
  })
})
