/** What comes in where something lies, and how it is judged as it comes in. */
import {
  apartOnAverage,
  comparedAtJoint,
  combineAir,
  disagree,
  judgeMetal,
  type AirAtJoint,
  type Claim,
  type Known,
  type Reading,
  type ReadingFinding,
} from '@clampclock/cure'
import { isOf, type Lie } from './lie-kinds.ts'
import { between, type Random } from './random.ts'
import { EVERY_MINUTES, LEAD_IN_MINUTES, LEAST_APPLICATION_C, thermometer, type World } from './scenarios.ts'

const MINUTE_MS = 60_000

export interface Doubtable {
  readonly claim: Claim
  readonly findings: readonly ReadingFinding[]
  /** When what made it doubtful was known: a run that stands still shows only later. */
  readonly doubtedAtMs: number
}

export const fahrenheit = (c: number): number => (c * 9) / 5 + 32
export const tenths = (c: number): number => Math.round(c * 10) / 10

/** What lies, by how much and when. */
export interface Lying {
  readonly lie: Lie
  readonly offC: number
  readonly enteredAtMs: number | null
}

/** Of each thermometer of the bay. */
export function airClaims(random: Random, { place, metalC }: World, lying: Lying): Claim[][] {
  const { lie, offC, enteredAtMs } = lying
  const bond = place.bondAtMinute
  const stuckFrom = lie === 'airStuck' ? bond + between(random, -90, 300) : Infinity
  const silentFrom = lie === 'uploadedLate' ? bond - 30 : Infinity
  const turnsAt = lie === 'airTurnsWarm' ? bond + between(random, 5, 180) : -Infinity
  const inventedC = place.airC[bond]! + between(random, 5, 15)
  const isWarm = lie.startsWith('air') && lie.includes('Warm')
  return Array.from({ length: lie === 'oneOfTwoReadsWarm' ? 2 : 1 }, (_, n) => {
    const read = thermometer(random, 1)
    const biasC = n === 0 && (isWarm || lie === 'oneOfTwoReadsWarm') ? offC : 0
    let lastC = 0
    const claims: Claim[] = []
    const start = bond - LEAD_IN_MINUTES + Math.floor(between(random, 0, EVERY_MINUTES))
    for (let at = start; at < bond + metalC.length; at += EVERY_MINUTES) {
      const atMs = at * MINUTE_MS
      const isLate = enteredAtMs !== null && at > silentFrom && atMs <= enteredAtMs
      const biased = read(place.airC[at]!) + (at >= turnsAt ? biasC : 0)
      // The file that comes says that it was warm all the while.
      const c = tenths(isLate ? inventedC + between(random, -0.3, 0.3) : biased)
      if (!(at > stuckFrom && claims.length > 0))
        lastC = lie === 'degFOfTheSensor' ? tenths(fahrenheit(c)) : c
      const entered = isLate ? enteredAtMs : atMs
      if (lie === 'probeReadsWarmInSilence' && Math.abs(at - bond) <= 60) continue
      claims.push({ atMs, enteredAtMs: entered, temperatureC: lastC, accuracyC: 1, source: 'bayAir' })
    }
    return claims
  })
}

/** A reading of the panel at the application and after one and two hours, and of the air at the joint by hand. */
export function handClaims(
  random: Random,
  { place, metalC, metalReadAt }: World,
  { lie, offC, enteredAtMs }: Lying,
  air: readonly Claim[],
): { metal: Claim[]; joint: AirAtJoint } {
  const honest = thermometer(random, 1)
  const signed = lie.startsWith('probeReadsWarm') ? offC : lie === 'probeReadsCold' ? -offC : 0
  const bondMs = place.bondAtMinute * MINUTE_MS
  const stuckC = tenths(honest(metalC[0]!))
  const probe = (c: number): number => (lie === 'probeStuck' ? stuckC : tenths(honest(c) + signed))
  const metal = metalReadAt.map((minute): Claim => {
    const trueC = probe(metalC[minute]!)
    const isSlip = (lie === 'degFAtApplication' && minute === 0) || (lie === 'degFLater' && minute === 60)
    const atMs = bondMs + minute * MINUTE_MS
    const temperatureC = isSlip ? tenths(fahrenheit(trueC)) : trueC
    return { atMs, enteredAtMs: atMs, temperatureC, accuracyC: 1, source: 'metalProbe' }
  })
  const airC = place.airC[place.bondAtMinute]!
  const isAlone = isOf(lie, 'probeReadsWarmAlone', 'probeReadsWarmBesideColdAir')
  const otherOffC = lie === 'probeReadsWarmBesideColdAir' ? -between(random, 3, 6) : 0
  const shown = air.findLast(({ atMs }) => atMs <= bondMs)!.temperatureC
  const byHandC = isAlone ? tenths(thermometer(random, 1)(airC) + otherOffC) : probe(airC)
  const joint = {
    atMs: bondMs,
    temperatureC: lie.endsWith('Copied') ? shown : byHandC,
    accuracyC: 1,
    isByPanelThermometer: !isAlone,
    coldestMetalC: LEAST_APPLICATION_C,
  }
  if (!isOf(lie, 'backdated') || enteredAtMs === null) return { metal, joint }
  const between5 = (enteredAtMs - bondMs) / 6
  const invented = Array.from({ length: 5 }, (_, i): Claim => {
    const atMs = Math.round(bondMs + (i + 1) * between5) + 1
    const temperatureC = tenths(between(random, 28, 40))
    return { atMs, enteredAtMs, temperatureC, accuracyC: 1, source: 'metalProbe' }
  })
  return { metal: [...metal, ...invented].toSorted((a, b) => a.atMs - b.atMs), joint }
}

/** In the order they were entered; whoever is asked says that it is right, so it goes in as suspect. */
export function judgedMetal(claims: readonly Claim[], air: readonly Reading[]): Doubtable[] {
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
    done.push({ claim, findings, doubtedAtMs: findings.length > 0 ? claim.enteredAtMs : Infinity })
  }
  return done.toSorted((a, b) => a.claim.atMs - b.claim.atMs)
}

/** Of each thermometer, as it is known at an instant. */
export function airOf(judged: readonly (readonly Doubtable[])[], knownMs: number): Reading[] {
  return combineAir(
    judged.map((each) => ({
      samples: each
        .filter((one) => isKnown(one, knownMs))
        .map((one) => ({ ...one.claim, suspect: isDoubted(one, knownMs) })),
      doubtedSinceMs: null,
      retiredAtMs: null,
    })),
  )
}

/** What was doubtful as it came in is so whenever it is known; what showed to be later, from then on. */
function isDoubted({ claim, doubtedAtMs }: Doubtable, knownMs: number): boolean {
  return doubtedAtMs < Infinity && (doubtedAtMs <= claim.enteredAtMs || doubtedAtMs <= knownMs)
}

/** What came in time is known when the gate gets there. */
function isKnown({ claim }: Doubtable, knownMs: number): boolean {
  return claim.enteredAtMs <= knownMs || claim.enteredAtMs === claim.atMs
}

/** All that the gate goes by, once the air at the joint has been held against the bay's. */
export function readingsOf(
  judgedAir: readonly (readonly Doubtable[])[],
  judgedMetals: readonly Doubtable[],
  joint: AirAtJoint,
  knownMs: number,
): { readings: Reading[]; isApart: boolean; isUnproven: boolean } {
  const known = judgedMetals
    .filter((one) => isKnown(one, knownMs))
    .map(({ claim, findings }) => {
      const { atMs, temperatureC, accuracyC, source } = claim
      const reading = { atMs, temperatureC, accuracyC, source, isByPanelThermometer: true }
      return findings.length > 0 ? { ...reading, suspect: true as const } : reading
    })
  const { air, metal, notes } = comparedAtJoint(airOf(judgedAir, knownMs), known, joint)
  const measured = new Set(metal.map(({ atMs }) => atMs))
  const readings = [...metal, ...air.filter(({ atMs }) => !measured.has(atMs))]
  return {
    readings: readings.toSorted((a, b) => a.atMs - b.atMs),
    isApart: notes.some(({ kind }) => kind === 'airAtJointApart'),
    isUnproven: notes.some(({ kind }) => kind === 'metalUnproven' || kind === 'airUnproven'),
  }
}

/** Held against one another with every reading, by the last one of each and by the last six hours. */
export function firstDisagreement([a = [], b = []]: readonly (readonly Claim[])[]): number {
  const i = a.findIndex((one, n) => {
    const since = Math.max(0, n - 23)
    const other = b[n]
    if (other === undefined) return false
    return disagree(one, other) || apartOnAverage(a.slice(since, n + 1), b.slice(since, n + 1)) !== null
  })
  return i < 0 ? Infinity : Math.max(a[i]!.atMs, b[i]!.atMs)
}

/** A thermometer in another bay of the shop, a little warmer or colder. */
export function otherBay(random: Random, { place }: World): Known[] {
  const read = thermometer(random, 1)
  const offset = between(random, -3, 3)
  const known: Known[] = []
  for (let at = place.bondAtMinute - 1440 + 3; at < place.airC.length; at += EVERY_MINUTES)
    known.push({ atMs: at * MINUTE_MS, temperatureC: tenths(read(place.airC[at]! + offset)), accuracyC: 1 })
  return known
}
