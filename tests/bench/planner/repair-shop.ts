/**
 * Synthetic repair shops for the bench, seeded. Everything is invented; the proportions are common practice, no
 * source. Minute 0 is a Monday at 00:00.
 */

import { generator } from './generator.ts'

const day = 1440
const weeks = 12

/** Mon-Fri work from `from` to `until` (hours), with half an hour off at `lunch`. */
const shifts = (from: number, lunch: number, until: number): [number, number][] =>
  Array.from({ length: weeks * 7 }, (_, d) => d)
    .filter((d) => d % 7 < 5)
    .flatMap((d): [number, number][] => [
      [d * day + from * 60, d * day + lunch * 60],
      [d * day + lunch * 60 + 30, d * day + until * 60],
    ])

/** Cure speed by the hour, 1000 at 23 degC and doubling every 10 degC, from a daily sine of the air temperature. */
function cureRates(
  meanC: number,
  swingC: number,
  draw: () => number,
): { atMinute: number; ratePerMinute: number }[] {
  let weather = 0
  return Array.from({ length: weeks * 7 * 24 }, (_, hour) => {
    if (hour % 24 === 0) weather = 0.7 * weather + 3 * (draw() - 0.5) * (swingC / 6)
    const temperatureC = meanC + weather + swingC * Math.sin(((hour - 9) / 24) * 2 * Math.PI)
    return {
      atMinute: hour * 60,
      ratePerMinute: Math.max(1, Math.round(1000 * 2 ** ((temperatureC - 23) / 10))),
    }
  })
}

/**
 * A shop sized for the vehicles it takes in within four weeks, in the planner's JSON form. `load` is the
 * share of the body technicians' four weeks that the work takes (100 vehicles; rounding favours other sizes).
 */
export function repairShop(vehicles: number, seed: number, load = 0.85): unknown {
  const draw = generator(seed * 7919 + vehicles)
  const between = (low: number, high: number): number => Math.round((low + draw() * (high - low)) / 5) * 5
  // The times below make up a load of 0.93.
  const effort = (low: number, high: number): number => between((low * load) / 0.93, (high * load) / 0.93)
  const size = (per100: number, least: number): number =>
    Math.max(least, Math.ceil((per100 * vehicles) / 100))
  const names = (word: string, count: number): string[] =>
    Array.from({ length: count }, (_, i) => `${word}-${i + 1}`)
  const bays = names('bay', size(12, 3))
  const ovens = names('oven', size(2, 1))
  const bonders = names('bonder', size(5, 2))
  const fitters = names('fitter', size(3, 1))
  const painters = names('painter', size(2, 1))
  const body = [...bonders, ...fitters]
  const heated = new Set(bays.slice(0, Math.ceil(bays.length / 3)))

  const tasks: unknown[] = []
  const lags: unknown[] = []
  const holds: unknown[] = []
  const jobs = Array.from({ length: vehicles }, (_, v) => {
    const job = `vehicle-${v + 1}`
    const arrivalDay = Math.floor((v * 20) / vehicles)
    const releaseAt = Math.floor(arrivalDay / 5) * 7 * day + (arrivalDay % 5) * day + between(420, 720)
    const task = (name: string, work: number, rest: object): string => {
      const id = `${job}/${name}`
      tasks.push({ id, jobId: job, modes: [{ work, demands: [], ...rest }], breaks: 'ignore' })
      return id
    }
    const attended = (
      name: string,
      work: number,
      crew: readonly string[],
      people: number,
      breaks: string,
    ): string => {
      const id = `${job}/${name}`
      tasks.push({
        id,
        jobId: job,
        breaks,
        modes: [{ work, demands: Array.from({ length: people }, () => ({ anyOf: crew })) }],
      })
      return id
    }
    const after = (from: string, to: string, rest: object = {}): void => void lags.push({ from, to, ...rest })

    const strip = attended('strip', effort(90, 240), body, 1, 'pause')
    const prepare = attended('prepare', effort(45, 120), body, 1, 'pause')
    const bond = attended('bond', effort(30, 60), bonders, draw() < 0.25 ? 2 : 1, 'forbid')
    const cure = task('cure', 1000 * between(180, 360), {
      profileId: 'unheated',
      profileByResource: Object.fromEntries([...heated].map((bay) => [bay, 'heated'])),
    })
    const dress = attended('dress', effort(90, 270), body, 1, 'pause')
    after(strip, prepare)
    after(prepare, bond, { maxMinutes: 480 })
    after(bond, cure, { maxMinutes: 0 })
    after(cure, dress)
    holds.push({ id: `${job}/stay`, anyOf: bays, fromTask: strip, untilTask: dress, until: 'end' })
    holds.push({
      id: `${job}/clamps`,
      anyOf: ['clamps'],
      units: 1,
      fromTask: bond,
      untilTask: cure,
      until: 'end',
    })
    let last = dress
    if (draw() < 0.7) {
      const paint = attended('paint', between(90, 200), painters, 1, 'forbid')
      const isLoose = draw() < 0.4
      const bake = `${job}/bake`
      tasks.push({
        id: bake,
        jobId: job,
        breaks: 'ignore',
        family: isLoose ? 'panels' : 'vehicle',
        modes: [{ work: 70, demands: [{ anyOf: ovens, units: isLoose ? 1 : 4 }] }],
      })
      after(dress, paint)
      after(paint, bake, { minMinutes: 15, maxMinutes: 120 })
      last = bake
    }
    const fit = attended('fit', effort(90, 330), body, 1, 'pause')
    const inspect = attended('inspect', effort(15, 30), [...body, ...painters], 1, 'pause')
    after(last, fit)
    after(fit, inspect)
    holds.push({ id: `${job}/refit`, anyOf: bays, fromTask: fit, untilTask: inspect, until: 'end' })
    return {
      id: job,
      releaseAt,
      dueAt: releaseAt + between(3 * day, 7 * day),
      weight: [1, 1, 2, 4][Math.floor(draw() * 4)]!,
    }
  })
  return {
    horizonMinutes: weeks * 7 * day,
    profiles: [
      { id: 'unheated', points: cureRates(15, 5, draw) },
      { id: 'heated', points: cureRates(21, 2, draw) },
    ],
    calendars: [
      { id: 'early', shifts: shifts(7, 11.5, 15.5) },
      { id: 'late', shifts: shifts(9, 13, 17.5) },
    ],
    resources: [
      ...bays.map((id) => ({ id })),
      ...ovens.map((id) => ({ id, capacity: 4, batch: true })),
      ...body.map((id, i) => ({ id, calendarId: i % 3 === 2 ? 'late' : 'early' })),
      ...painters.map((id) => ({ id, calendarId: 'early' })),
      { id: 'clamps', capacity: size(7, 2) },
    ],
    jobs,
    tasks,
    lags,
    holds,
    objective: { kind: 'weighted', weights: { weightedTardiness: 1, change: 1 } },
    stability: { perMinuteMoved: 0.05, perResourceChanged: 30, fadesOutAt: 14 * day },
  }
}
