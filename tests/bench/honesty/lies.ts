/** Instruments that lie, judged as the program judges what comes in: what is doubted never helps. */
import {
  combineAir,
  disagree,
  judgeAir,
  judgeMetal,
  type Claim,
  type Known,
  type Reading,
  type ReadingFinding,
} from '@clampclock/cure'
import type { Case } from './judge.ts'
import { between, randomFrom, type Random } from './random.ts'
import { EVERY_MINUTES, LEAD_IN_MINUTES, pastOf, thermometer, worldOf, type World } from './scenarios.ts'

export const LIES = [
  /** Nothing lies: how often honest instruments are doubted. */
  'none',
  'probeReadsWarm',
  'probeReadsCold',
  'probeStuck',
  'airStuck',
  'airReadsWarm',
  'oneOfTwoReadsWarm',
  'degFAtApplication',
  'degFLater',
  'degFOfTheSensor',
  'uploadedLate',
  'backdated',
] as const
export type Lie = (typeof LIES)[number]

const MINUTE_MS = 60_000

export interface Told {
  /** As it stands once everything is entered. */
  readonly whole: Case
  /** As it stood before what came late; the same where nothing did. */
  readonly before: readonly Reading[]
  /** When what came late was entered; null where nothing did. */
  readonly enteredAtMs: number | null
  /** How far the instrument was off, degC; null where the lie has no size. */
  readonly offC: number | null
  /** When the first reading was asked about or went in as suspect; Infinity where none was. */
  readonly noticedAtMs: number
}

interface Doubtable {
  readonly claim: Claim
  readonly findings: readonly ReadingFinding[]
}

const fahrenheit = (c: number): number => (c * 9) / 5 + 32
const tenths = (c: number): number => Math.round(c * 10) / 10

export function tellLies(lie: Lie, seed: number): Told {
  const random = randomFrom(seed * 13 + 101 + LIES.indexOf(lie))
  const world = worldOf(random, random() < 0.5 ? 'secondReading' : 'coldSnap')
  const bondMs = world.place.bondAtMinute * MINUTE_MS
  const isSized =
    lie === 'probeReadsWarm' ||
    lie === 'probeReadsCold' ||
    lie.endsWith('TwoReadsWarm') ||
    lie === 'airReadsWarm'
  const offC = isSized ? between(random, 3, 15) : null
  const enteredAtMs =
    lie === 'uploadedLate' || lie === 'backdated' ? bondMs + between(random, 90, 300) * MINUTE_MS : null

  const honestPast = pastOf(random, world.place)
  const isSensorInFahrenheit = lie === 'degFOfTheSensor'
  const shop = otherBay(random, world)
  const air = airClaims(random, world, lie, offC, enteredAtMs)
  const judged = air.map((claims) => {
    const findings = judgeAir(claims, {
      own: isSensorInFahrenheit ? [] : dayBefore(honestPast, claims[0]!.atMs),
      others: shop,
      isOven: false,
    })
    return claims.map((claim, i): Doubtable => ({ claim, findings: findings[i]! }))
  })
  const metal = judgedMetal(metalClaims(random, world, lie, offC, enteredAtMs), airOf(judged))
  const all = [...judged.flat(), ...metal]
  // All that such a sensor ever read is doubted: nothing is learned of the place.
  const past = isSensorInFahrenheit ? [] : honestPast
  const readingsUpTo = (knownMs: number): Reading[] => {
    const isKnown = ({ claim }: Doubtable) => claim.enteredAtMs <= knownMs || claim.enteredAtMs === claim.atMs
    return merged(airOf(judged.map((each) => each.filter(isKnown))), metal.filter(isKnown).map(readingOf))
  }
  const noticed = all.filter(({ findings }) => findings.length > 0).map(({ claim }) => claim.enteredAtMs)
  const disagreedAtMs = lie === 'oneOfTwoReadsWarm' ? firstDisagreement(air) : Infinity
  return {
    whole: world.measured(`${lie} ${seed}`, readingsUpTo(Infinity), past),
    before: readingsUpTo(-Infinity),
    enteredAtMs,
    offC,
    noticedAtMs: noticed.reduce((a, b) => Math.min(a, b), disagreedAtMs),
  }
}

function dayBefore(past: Case['past'], untilMs: number): Known[] {
  return past
    .filter(({ atMs }) => atMs < untilMs && atMs >= untilMs - 1440 * MINUTE_MS)
    .map((one) => ({ ...one, accuracyC: 1 }))
}

/** A thermometer in another bay of the shop, a little warmer or colder. */
function otherBay(random: Random, { place }: World): Known[] {
  const read = thermometer(random, 1)
  const offset = between(random, -3, 3)
  const known: Known[] = []
  for (let at = place.bondAtMinute - 1440 + 3; at < place.airC.length; at += EVERY_MINUTES)
    known.push({ atMs: at * MINUTE_MS, temperatureC: tenths(read(place.airC[at]! + offset)), accuracyC: 1 })
  return known
}

/** Of each thermometer of the bay. */
function airClaims(
  random: Random,
  { place, metalC }: World,
  lie: Lie,
  offC: number | null,
  enteredAtMs: number | null,
): Claim[][] {
  const bond = place.bondAtMinute
  const stuckFrom = lie === 'airStuck' ? bond + between(random, -90, 300) : Infinity
  const silentFrom = lie === 'uploadedLate' ? bond - 30 : Infinity
  const inventedC = place.airC[bond]! + between(random, 5, 15)
  return Array.from({ length: lie === 'oneOfTwoReadsWarm' ? 2 : 1 }, (_, n) => {
    const read = thermometer(random, 1)
    const biasC = n === 0 && (lie === 'airReadsWarm' || lie === 'oneOfTwoReadsWarm') ? offC! : 0
    let lastC = 0
    const claims: Claim[] = []
    const start = bond - LEAD_IN_MINUTES + Math.floor(between(random, 0, EVERY_MINUTES))
    for (let at = start; at < bond + metalC.length; at += EVERY_MINUTES) {
      const atMs = at * MINUTE_MS
      const isLate = enteredAtMs !== null && at > silentFrom && atMs <= enteredAtMs
      // The file that comes says that it was warm all the while.
      const c = tenths(isLate ? inventedC + between(random, -0.3, 0.3) : read(place.airC[at]!) + biasC)
      if (!(at > stuckFrom && claims.length > 0))
        lastC = lie === 'degFOfTheSensor' ? tenths(fahrenheit(c)) : c
      const entered = isLate ? enteredAtMs : atMs
      claims.push({ atMs, enteredAtMs: entered, temperatureC: lastC, accuracyC: 1, source: 'bayAir' })
    }
    return claims
  })
}

function metalClaims(
  random: Random,
  { place, metalC }: World,
  lie: Lie,
  offC: number | null,
  enteredAtMs: number | null,
): Claim[] {
  const read = thermometer(random, 1)
  const sign = lie === 'probeReadsWarm' ? 1 : lie === 'probeReadsCold' ? -1 : 0
  const bondMs = place.bondAtMinute * MINUTE_MS
  const stuckC = read(metalC[0]!)
  const claims = [0, 60, 120].map((minute): Claim => {
    const trueC = lie === 'probeStuck' ? stuckC : read(metalC[minute]!) + sign * (offC ?? 0)
    const isSlip = (lie === 'degFAtApplication' && minute === 0) || (lie === 'degFLater' && minute === 60)
    const atMs = bondMs + minute * MINUTE_MS
    const temperatureC = tenths(isSlip ? fahrenheit(trueC) : trueC)
    return { atMs, enteredAtMs: atMs, temperatureC, accuracyC: 1, source: 'metalProbe' }
  })
  if (lie !== 'backdated' || enteredAtMs === null) return claims
  const between5 = (enteredAtMs - bondMs) / 6
  const invented = Array.from({ length: 5 }, (_, i): Claim => {
    const atMs = Math.round(bondMs + (i + 1) * between5) + 1
    const temperatureC = tenths(between(random, 28, 40))
    return { atMs, enteredAtMs, temperatureC, accuracyC: 1, source: 'metalProbe' }
  })
  return [...claims, ...invented].toSorted((a, b) => a.atMs - b.atMs)
}

/** In the order they were entered; whoever is asked says that it is right, so it goes in as suspect. */
function judgedMetal(claims: readonly Claim[], air: readonly Reading[]): Doubtable[] {
  const done: Doubtable[] = []
  const believedAir = air
    .filter(({ suspect }) => !suspect)
    .flatMap(({ atMs, temperatureC, accuracyC, lowC, highC }) =>
      lowC === undefined || highC === undefined
        ? [{ atMs, temperatureC, accuracyC }]
        : [lowC, highC].map((edgeC) => ({ atMs, temperatureC: edgeC, accuracyC: 0 })),
    )
  for (const claim of claims.toSorted((a, b) => a.enteredAtMs - b.enteredAtMs || a.atMs - b.atMs)) {
    const earlier = done
      .filter((one) => one.claim.atMs < claim.atMs)
      .toSorted((a, b) => a.claim.atMs - b.claim.atMs)
    const findings = judgeMetal(claim, {
      metal: earlier.filter((one) => one.findings.length === 0).map((one) => one.claim),
      byTheSame: done.map((one) => one.claim),
      air: believedAir.filter(({ atMs }) => atMs <= claim.atMs && atMs >= claim.atMs - 240 * MINUTE_MS),
      wasBaked: false,
    })
    done.push({ claim, findings })
  }
  return done.toSorted((a, b) => a.claim.atMs - b.claim.atMs)
}

function airOf(judged: readonly (readonly Doubtable[])[]): Reading[] {
  return combineAir(
    judged.map((each) => ({
      samples: each.map(({ claim, findings }) => ({ ...claim, suspect: findings.length > 0 })),
      doubtedSinceMs: null,
      retiredAtMs: null,
    })),
  )
}

function readingOf({ claim, findings }: Doubtable): Reading {
  const { atMs, temperatureC, accuracyC, source } = claim
  return { atMs, temperatureC, accuracyC, source, ...(findings.length > 0 ? { suspect: true } : {}) }
}

function merged(air: readonly Reading[], metal: readonly Reading[]): Reading[] {
  const measured = new Set(metal.map(({ atMs }) => atMs))
  return [...metal, ...air.filter(({ atMs }) => !measured.has(atMs))].toSorted((a, b) => a.atMs - b.atMs)
}

function firstDisagreement([a = [], b = []]: readonly (readonly Claim[])[]): number {
  const i = a.findIndex((one, n) => b[n] !== undefined && disagree(one, b[n]))
  return i < 0 ? Infinity : Math.max(a[i]!.atMs, b[i]!.atMs)
}
