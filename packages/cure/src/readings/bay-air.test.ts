import { describe, expect, it } from 'vitest'
import { combineAir, type AirSample, type Thermometer } from './bay-air.ts'

const MINUTE = 60_000
const at = (minutes: number, temperatureC: number, suspect = false): AirSample => ({
  atMs: minutes * MINUTE,
  temperatureC,
  accuracyC: 0.5,
  suspect,
})
const thermometer = (samples: AirSample[], changes: Partial<Thermometer> = {}): Thermometer => ({
  samples,
  doubtedSinceMs: null,
  retiredAtMs: null,
  ...changes,
})
const told = (...thermometers: Thermometer[]) =>
  combineAir(thermometers).map(({ atMs, temperatureC, lowC, highC, suspect }) => [
    atMs / MINUTE,
    temperatureC,
    lowC ?? null,
    highC ?? null,
    suspect === true,
  ])

describe('the air of a bay', () => {
  it('is as its one thermometer reads', () => {
    expect(told(thermometer([at(0, 20), at(15, 21)]))).toEqual([
      [0, 20, null, null, false],
      [15, 21, null, null, false],
    ])
  })

  it('is from the colder to the warmer of two, in whatever order they stand', () => {
    const heater = thermometer([at(0, 35), at(15, 35)])
    const real = thermometer([at(5, 12), at(15, 12)])
    for (const both of [
      [heater, real],
      [real, heater],
    ])
      expect(told(...both)).toEqual([
        [0, 35, null, null, false],
        [5, 12, 11.5, 35.5, false],
        [15, 12, 11.5, 35.5, false],
      ])
  })

  it('is as cold as the colder one, also where the warmer one spoke last, and is air', () => {
    const readings = combineAir([thermometer([at(0, 12)]), thermometer([at(5, 35)])])
    expect(readings).toEqual([
      { atMs: 0, temperatureC: 12, accuracyC: 0.5, source: 'bayAir' },
      { atMs: 5 * MINUTE, temperatureC: 12, accuracyC: 0.5, source: 'bayAir', lowC: 11.5, highC: 35.5 },
    ])
  })

  it('is as the other reads once one has been silent for an hour', () => {
    expect(told(thermometer([at(0, 35)]), thermometer([at(60, 12), at(61, 12)]))).toEqual([
      [0, 35, null, null, false],
      [60, 12, 11.5, 35.5, false],
      [61, 12, null, null, false],
    ])
  })

  it('leaves out one that is doubted while another speaks, and doubts it alone', () => {
    const heater = thermometer([at(0, 35), at(30, 35), at(200, 35)], { doubtedSinceMs: 20 * MINUTE })
    expect(told(heater, thermometer([at(10, 12), at(25, 12)]))).toEqual([
      [0, 35, null, null, false],
      [10, 12, 11.5, 35.5, false],
      // What it read before it was doubted speaks for its hour, unless it reads again meanwhile.
      [25, 12, 11.5, 35.5, false],
      [200, 35, null, null, true],
    ])
  })

  it('ends a thermometer where it was retired, and keeps what it read before', () => {
    expect(told(thermometer([at(0, 20), at(15, 21)], { retiredAtMs: 15 * MINUTE }))).toEqual([
      [0, 20, null, null, false],
    ])
  })

  it('keeps a doubtful reading beside a good one of the same instant', () => {
    const readings = combineAir([thermometer([at(0, 20)]), thermometer([at(0, 68, true)])])
    expect(readings).toMatchObject([
      { atMs: 0, temperatureC: 20 },
      { atMs: 1, temperatureC: 68, suspect: true },
    ])
  })
})
