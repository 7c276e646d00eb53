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

it('rounds the end up to a whole minute, so that half a minute is not nothing', () => {
  expect(parts('2031-05-05T14:00:10Z', '2031-05-05T14:00:50Z')).toMatchObject([
    { from: '10:00', until: '10:01' },
  ])
  expect(parts('2031-05-06T03:59:10Z', '2031-05-06T03:59:50Z')).toEqual([
    { firstDay: '2031-05-05', lastDay: '2031-05-05', from: '23:59', until: '24:00' },
  ])
})

it('covers all of an absence in the hour that the clock shows twice, and rather too much than too little', () => {
  // On 2 November 2031 New York has 01:00 until 02:00 twice: from 05:00Z and from 06:00Z.
  const clock = (from: string, until: string) =>
    parts(`2031-11-02T${from}Z`, `2031-11-02T${until}Z`).map((part) => [part.from, part.until])
  expect(clock('05:10', '05:40')).toEqual([['01:10', '01:40']])
  expect(clock('05:30', '06:10')).toEqual([['01:30', '02:00']])
  expect(clock('06:30', '06:40')).toEqual([['01:30', '02:00']])
  expect(clock('05:30', '06:00')).toEqual([['01:30', '02:00']])
  expect(clock('06:30', '07:15')).toEqual([['01:30', '02:15']])
})
