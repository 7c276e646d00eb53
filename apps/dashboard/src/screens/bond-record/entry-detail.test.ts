import { expect, it } from 'vitest'
import { entryDetail } from './entry-detail.ts'

const degrees = (c: number) => `${c} °C`

it('says temperature, instrument, progress and reason, and rounds progress down', () => {
  const facts = {
    temperatureC: 21,
    instrument: { name: 'Probe', serialNumber: '7', inCalibration: false },
    conservativeProgress: 0.997,
  }
  expect(entryDetail({ facts, reason: 'Fire alarm' }, degrees)).toBe(
    '21 °C; with Probe (7, out of calibration); at 99 % of handling strength, careful estimate; Fire alarm',
  )
})

it('says nothing where nothing more was written down', () => {
  expect(entryDetail({ facts: { instrument: null }, reason: null }, degrees)).toBe('')
})
