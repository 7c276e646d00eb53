import { MS_PER_MINUTE } from '@clampclock/quantities'
import { STALE_LIMIT_MINUTES, type Reading } from './reading.ts'
import type { Known } from './reading-quality.ts'

/** What one thermometer of a bay read; `suspect` is in doubt by itself. */
export interface AirSample extends Known {
  readonly suspect: boolean
}

export interface Thermometer {
  /** By time. */
  readonly samples: readonly AirSample[]
  /** Somebody said that it reads wrong from then on; null as long as nobody has. */
  readonly doubtedSinceMs: number | null
  /** It hangs there no more from then on; null as long as it does. */
  readonly retiredAtMs: number | null
}

const SPEAKS_MS = STALE_LIMIT_MINUTES.bayAir * MS_PER_MINUTE

/**
 * The air of a bay from all its thermometers: at every instant the band from the coldest to the warmest of those
 * that speak then, so that the colder one counts for the gate and the warmer one for the work time until somebody
 * says which is right. One that is doubted counts for nothing beside one that is not, and alone is in doubt.
 *
 * @returns readings by time, one for an instant.
 */
export function combineAir(thermometers: readonly Thermometer[]): Reading[] {
  const hanging = thermometers.map((each) => ({ ...each, samples: untilRetired(each) }))
  const speaking = new Map<Thermometer, AirSample>()
  const events = hanging
    .flatMap((thermometer) => thermometer.samples.map((sample) => ({ thermometer, sample })))
    .toSorted((a, b) => a.sample.atMs - b.sample.atMs)
  const readings: Reading[] = []
  const inDoubt: AirSample[] = []
  for (let i = 0; i < events.length;) {
    const { atMs } = events[i]!.sample
    let believed = false
    for (; i < events.length && events[i]!.sample.atMs === atMs; i++) {
      const { thermometer, sample } = events[i]!
      const isDoubted = thermometer.doubtedSinceMs !== null && atMs >= thermometer.doubtedSinceMs
      if (sample.suspect || isDoubted) {
        if (isDoubted) speaking.delete(thermometer)
        if (!isDoubted || heard(speaking, atMs).length === 0) inDoubt.push(sample)
        continue
      }
      speaking.set(thermometer, sample)
      believed = true
    }
    if (believed) readings.push(bandOf(heard(speaking, atMs), atMs))
  }
  return withDoubtful(readings, inDoubt)
}

function untilRetired({ samples, retiredAtMs }: Thermometer): readonly AirSample[] {
  return retiredAtMs === null ? samples : samples.filter(({ atMs }) => atMs < retiredAtMs)
}

function heard(speaking: ReadonlyMap<Thermometer, AirSample>, atMs: number): AirSample[] {
  return [...speaking.values()].filter((sample) => atMs - sample.atMs <= SPEAKS_MS)
}

function bandOf(samples: readonly AirSample[], atMs: number): Reading {
  const coldest = samples.reduce((a, b) => (b.temperatureC < a.temperatureC ? b : a))
  const { temperatureC, accuracyC } = coldest
  const reading: Reading = { atMs, temperatureC, accuracyC, source: 'bayAir' }
  if (samples.length === 1) return reading
  return {
    ...reading,
    lowC: Math.min(...samples.map((sample) => sample.temperatureC - sample.accuracyC)),
    highC: Math.max(...samples.map((sample) => sample.temperatureC + sample.accuracyC)),
  }
}

/** One for an instant: what is in doubt beside a believed reading of the same instant comes a moment later. */
function withDoubtful(readings: readonly Reading[], inDoubt: readonly AirSample[]): Reading[] {
  if (inDoubt.length === 0) return [...readings]
  const taken = new Set(readings.map(({ atMs }) => atMs))
  const doubtful = inDoubt.map(({ atMs: at, temperatureC, accuracyC }): Reading => {
    let atMs = at
    while (taken.has(atMs)) atMs += 1
    taken.add(atMs)
    return { atMs, temperatureC, accuracyC, source: 'bayAir', suspect: true }
  })
  return [...readings, ...doubtful].toSorted((a, b) => a.atMs - b.atMs)
}
