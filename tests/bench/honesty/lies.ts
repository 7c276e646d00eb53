/** Instruments that lie, judged as the program judges what comes in: what is doubted never helps. */
import {
  habitsOf,
  judgeAir,
  type Claim,
  type Known,
  type Reading,
  type ReadingFinding,
} from '@clampclock/cure'
import type { Case } from './judge.ts'
import {
  airClaims,
  airOf,
  fahrenheit,
  firstDisagreement,
  handClaims,
  judgedMetal,
  otherBay,
  readingsOf,
  tenths,
  type Doubtable,
  type Lying,
} from './lie-claims.ts'
import { isOf, isSized, LIES, type Lie } from './lie-kinds.ts'
import { between, randomFrom, type Random } from './random.ts'
import { pastOf, SCENARIOS, worldOf, type Scenario, type World } from './scenarios.ts'

const MINUTE_MS = 60_000
/** Of the past, for what the thermometer does of itself. */
const HABIT_DAYS = 7

export interface Told {
  readonly whole: Case
  /** What the gate went by, from each instant on until the next. */
  readonly revisions: readonly { readonly fromMs: number; readonly readings: readonly Reading[] }[]
  /** How far the instrument was off, degC; null where the lie has no size. */
  readonly offC: number | null
  /** How far what was read was off the truth, degC, and when it was entered. */
  readonly errors: readonly { readonly enteredAtMs: number; readonly errorC: number }[]
  /** When the first reading was asked about, doubted, or contradicted aloud; Infinity where none was. */
  readonly noticedAtMs: number
  /** The bond was told that nothing bears out what was read; that notices no lie. */
  readonly isUnproven: boolean
}

export function tellLies(lie: Lie, seed: number): Told {
  const random = randomFrom(seed * 13 + 101 + LIES.indexOf(lie))
  const world = worldOf(random, scenarioOf(lie, seed, random))
  const bondMs = world.place.bondAtMinute * MINUTE_MS
  const offC = isSized(lie) ? between(random, 3, 15) : 0
  const enteredAtMs = isOf(lie, 'uploadedLate', 'backdated')
    ? bondMs + between(random, 90, 300) * MINUTE_MS
    : null
  const lying: Lying = { lie, offC, enteredAtMs }

  const isAlways = lie.startsWith('airAlways')
  const shown = (c: number): number =>
    tenths(lie === 'degFOfTheSensor' ? fahrenheit(c) : isAlways ? c + offC : c)
  const past = pastOf(random, world.place).map((one) => ({ ...one, temperatureC: shown(one.temperatureC) }))
  const shop = otherBay(random, world)
  const air = airClaims(random, world, lying)
  const judged = air.map((claims) => judgedAir(claims, lie === 'degFOfTheSensor' ? [] : past, shop))
  const { metal: hand, joint } = handClaims(random, world, lying, air[0]!)
  const metal = judgedMetal(hand, airOf(judged, Infinity))
  const all = [...judged.flat(), ...metal]
  const known = (atMs: number) => readingsOf(judged, metal, joint, atMs)
  const whole = known(Infinity)
  const learned = [-Infinity, ...(enteredAtMs === null ? [] : [enteredAtMs]), ...laterDoubts(all)]
  const noticed = [
    ...all.map(({ doubtedAtMs }) => doubtedAtMs),
    whole.isApart ? bondMs : Infinity,
    lie === 'oneOfTwoReadsWarm' ? firstDisagreement(air) : Infinity,
  ]
  return {
    // All that a sensor in degF ever read is doubted: nothing is learned of the place.
    whole: world.measured(`${lie} ${seed}`, whole.readings, lie === 'degFOfTheSensor' ? [] : past),
    revisions: learned
      .toSorted((a, b) => a - b)
      .map((fromMs) => ({ fromMs, readings: known(fromMs).readings })),
    offC: isSized(lie) ? offC : null,
    errors: errorsOf(world, [...air.flat(), ...hand]),
    noticedAtMs: noticed.reduce((a, b) => Math.min(a, b), Infinity),
    isUnproven: whole.isUnproven,
  }
}

function scenarioOf(lie: Lie, seed: number, random: Random): Scenario {
  if (lie === 'noneFromTheSun') return 'warmStart'
  if (lie !== 'none') return random() < 0.5 ? 'secondReading' : 'coldSnap'
  const rest = SCENARIOS.filter((scenario) => scenario !== 'warmStart')
  return rest[seed % rest.length]!
}

/** As they come in; what stands still is doubted from when it has stood still for too long. */
function judgedAir(claims: readonly Claim[], past: readonly Past[], others: readonly Known[]): Doubtable[] {
  const [first] = claims
  const before = past.filter(({ atMs }) => atMs < first!.atMs).map((one): Known => ({ ...one, accuracyC: 1 }))
  const since = (days: number) => before.filter(({ atMs }) => atMs >= first!.atMs - days * 1440 * MINUTE_MS)
  const context = { own: since(1), habits: habitsOf(since(HABIT_DAYS)), others, isOven: false }
  const findings = judgeAir(claims, context)
  const judged = claims.map((claim, i): Doubtable => {
    const found = findings[i]!
    return { claim, findings: found, doubtedAtMs: found.length > 0 ? claim.enteredAtMs : Infinity }
  })
  // A run shows only after a while that it stands still, and is doubted from its second value on.
  const isStuck = (found: readonly ReadingFinding[]): boolean => found.some(({ kind }) => kind === 'stuck')
  for (let from = 0; from < claims.length; from++) {
    if (!isStuck(findings[from]!)) continue
    let end = from
    while (end < claims.length && isStuck(findings[end]!)) end++
    const shownBy = (last: number): boolean => isStuck(judgeAir(claims.slice(0, last + 1), context)[last]!)
    let [no, yes] = [from - 1, end - 1]
    while (yes - no > 1) {
      const middle = (no + yes) >> 1
      if (shownBy(middle)) yes = middle
      else no = middle
    }
    for (let i = from; i < yes; i++)
      if (findings[i]!.length === 1) judged[i] = { ...judged[i]!, doubtedAtMs: claims[yes]!.enteredAtMs }
    from = end
  }
  return judged
}

type Past = Pick<Known, 'atMs' | 'temperatureC'>

/** What was doubted only after it had been believed. */
function laterDoubts(all: readonly Doubtable[]): number[] {
  return [
    ...new Set(
      all
        .filter(({ claim, doubtedAtMs }) => doubtedAtMs < Infinity && doubtedAtMs > claim.enteredAtMs)
        .map(({ doubtedAtMs }) => doubtedAtMs),
    ),
  ]
}

function errorsOf({ place, metalC }: World, claims: readonly Claim[]): Told['errors'] {
  return claims.map(({ atMs, enteredAtMs, temperatureC, source }) => {
    const minute = Math.round(atMs / MINUTE_MS)
    const trueC = source === 'bayAir' ? place.airC[minute]! : metalC[minute - place.bondAtMinute]!
    return { enteredAtMs, errorC: Math.abs(temperatureC - trueC) }
  })
}
