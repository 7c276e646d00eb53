import { comparedAtJoint, COPIED_C, type DataSheet, type MetalReading, type Reading } from '@clampclock/cure'
import type { Case } from './judge.ts'
import { metalOf, minuteOf, rateOf, shareAt, shareOf, type Metal } from './metal.ts'
import { placeOf, type Place } from './place.ts'
import { between, logBetween, randomFrom, type Random } from './random.ts'

export const SCENARIOS = [
  'oneReading',
  'secondReading',
  'coldSnap',
  'coldStart',
  'warmStart',
  'silence',
  'twoMasses',
] as const
export type Scenario = (typeof SCENARIOS)[number]

const HISTORY_DAYS = 21
const DAYS = 5
const MINUTE_MS = 60_000
export const LEAD_IN_MINUTES = 120
export const EVERY_MINUTES = 15
export const LEAST_APPLICATION_C = 5
/** In the same bay, within the fortnight before, with the same thermometers. */
const EARLIER_BONDS = 3

/** Twice as fast each 10 degC or so, published from cold to warm. */
function sheetOf(random: Random): DataSheet {
  const handling = between(random, 90, 360)
  const factor = between(random, 1.8, 2.4)
  const at = (c: number) => {
    const minutes = handling * factor ** ((23 - c) / 10)
    return {
      temperatureC: c,
      workTimeMinutes: minutes / 6,
      handlingTimeMinutes: minutes,
      fullCureMinutes: minutes * 6,
    }
  }
  return {
    points: [at(5), at(23), at(60)],
    applicationRangeC: { min: LEAST_APPLICATION_C, max: 35 },
    lowestCureC: 0,
    highestCureC: 80,
    serviceRangeC: { min: -40, max: 176 },
  }
}

/** A thermometer within its accuracy: a bias that stays and a flicker. */
export function thermometer(random: Random, accuracyC: number): (c: number) => number {
  const bias = between(random, -0.8, 0.8) * accuracyC
  return (c) => c + bias + between(random, -0.2, 0.2) * accuracyC
}

/** A bond whose truth is settled, and of which nothing has been measured yet. */
export interface World {
  readonly place: Place
  readonly metalC: Float64Array
  /** When its panel is read, minutes after the application. */
  readonly metalReadAt: readonly number[]
  measured(name: string, readings: readonly Reading[], past: Case['past']): Case
}

export function simulate(scenario: Scenario, seed: number): Case {
  const random = randomFrom(seed * 7 + SCENARIOS.indexOf(scenario))
  const world = worldOf(random, scenario)
  const readings = readingsOf(random, scenario, world.place, world.metalC)
  return world.measured(`${scenario} ${seed}`, readings, pastOf(random, world.place))
}

export function worldOf(random: Random, scenario: Scenario): World {
  const fails = scenario === 'coldSnap' || random() < 0.2
  const place = placeOf(random, HISTORY_DAYS, DAYS, {
    failsAfterMinutes: fails ? between(random, -120, 360) : Infinity,
    snapC: scenario === 'coldSnap' ? between(random, 5, 15) : between(random, 0, 8),
  })
  const airC = place.airC[place.bondAtMinute]!
  const metal = metalIn(random, scenario, airC)
  const metalC = metalOf(metal, place.airC, place.bondAtMinute)
  const sheet = sheetOf(random)
  const share = shareOf(metalC, rateOf(sheet))
  const appliedAtMs = place.bondAtMinute * MINUTE_MS
  return {
    place,
    metalC,
    metalReadAt: [0, 60, 120],
    measured: (name, readings, past) => ({
      name,
      sheet,
      appliedAtMs,
      tauMinutes: 5,
      readings,
      past,
      untilMs: appliedAtMs + (metalC.length - 1) * MINUTE_MS,
      oracleMinute: minuteOf(share, 1),
      shareAt: (minute) => shareAt(share, minute),
    }),
  }
}

function metalIn(random: Random, scenario: Scenario, airC: number): Metal {
  const offset =
    scenario === 'coldStart'
      ? between(random, -16, -8)
      : scenario === 'warmStart'
        ? between(random, 4, 16)
        : between(random, -8, 0)
  const lagMinutes = logBetween(random, 5, 240)
  return {
    lagMinutes,
    startC: airC + offset,
    inner:
      scenario === 'twoMasses'
        ? { share: between(random, 0.2, 0.7), exchangeMinutes: logBetween(random, 10, 120) }
        : undefined,
  }
}

function readingsOf(random: Random, scenario: Scenario, place: Place, metalC: Float64Array): Reading[] {
  const bond = place.bondAtMinute
  const [probe, logger] = [thermometer(random, 1), thermometer(random, 1)]
  const silentFrom = scenario === 'silence' ? bond + between(random, -90, 300) : Infinity
  const silentTo = silentFrom + between(random, 60, 720)
  const phase = Math.floor(between(random, 0, EVERY_MINUTES))
  const air: Reading[] = []
  for (let at = bond - LEAD_IN_MINUTES + phase; at < place.airC.length; at += EVERY_MINUTES) {
    if (at > silentFrom && at < silentTo) continue
    const temperatureC = logger(place.airC[at]!)
    air.push({ atMs: at * MINUTE_MS, temperatureC, accuracyC: 1, source: 'bayAir' })
  }
  const measured =
    scenario === 'oneReading' || scenario === 'coldSnap' || scenario === 'silence' ? [0] : [0, 60]
  const metal = measured.map((minute): MetalReading => {
    const temperatureC = probe(metalC[minute]!)
    const atMs = (bond + minute) * MINUTE_MS
    return { atMs, temperatureC, accuracyC: 1, source: 'metalProbe', isByPanelThermometer: true }
  })
  // The air at the joint is read with the probe, as it was at the bonds of the fortnight before.
  const apartC = Array.from({ length: EARLIER_BONDS }, () => logger(0) - probe(0))
  const compared = comparedAtJoint(air, metal, {
    atMs: bond * MINUTE_MS,
    temperatureC: probe(place.airC[bond]!),
    accuracyC: 1,
    isByPanelThermometer: true,
    coldestMetalC: LEAST_APPLICATION_C,
    isBayBorneOut: apartC.some((c) => Math.abs(c) > COPIED_C),
  })
  const seen = new Set<number>()
  return [...compared.metal, ...compared.air]
    .toSorted((a, b) => a.atMs - b.atMs || (a.source === 'bayAir' ? 1 : -1))
    .filter(({ atMs }) => !seen.has(atMs) && seen.add(atMs))
}

export function pastOf(random: Random, place: Place): { atMs: number; temperatureC: number }[] {
  const logger = thermometer(random, 1)
  const past: { atMs: number; temperatureC: number }[] = []
  for (let at = 0; at < place.bondAtMinute; at += EVERY_MINUTES)
    past.push({ atMs: at * MINUTE_MS, temperatureC: logger(place.airC[at]!) })
  return past
}
