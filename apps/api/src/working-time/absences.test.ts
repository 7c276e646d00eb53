import { expect, it } from 'vitest'
import { partsOf } from './absences.ts'

const parts = (from: string, until: string) => partsOf(new Date(from), new Date(until), 'America/New_York')

it('is one part within a day, on the clock of the shop', () => {
  expect(parts('2031-05-05T14:00Z', '2031-05-05T16:30Z')).toEqual([
    { firstDay: '2031-05-05', lastDay: '2031-05-05', from: '10:00', until: '12:30' },
  ])
})

it('is the rest of a day, the whole days between, and the part of the last', () => {
  expect(parts('2031-05-05T14:00Z', '2031-05-08T16:30Z')).toEqual([
    { firstDay: '2031-05-05', lastDay: '2031-05-05', from: '10:00', until: '24:00' },
    { firstDay: '2031-05-06', lastDay: '2031-05-07', from: null, until: null },
    { firstDay: '2031-05-08', lastDay: '2031-05-08', from: '00:00', until: '12:30' },
  ])
})

it('has no empty parts where it starts or ends at midnight', () => {
  expect(parts('2031-05-05T04:00Z', '2031-05-07T04:00Z')).toEqual([
    { firstDay: '2031-05-05', lastDay: '2031-05-06', from: null, until: null },
  ])
  expect(parts('2031-05-05T22:00Z', '2031-05-06T14:00Z').map(({ from, until }) => [from, until])).toEqual([
    ['18:00', '24:00'],
    ['00:00', '10:00'],
  ])
})
