import {
  fahrenheitToCelsius,
  celsiusToFahrenheit,
  isWithin,
  MS_PER_MINUTE,
  type Range,
} from '@clampclock/quantities'
import type { ReadingFinding } from './reading-finding.ts'
import type { Reading } from './reading.ts'
import { toldLateMinutes } from './told-late.ts'

/*
 * Tests of a reading after the generic ones of QARTOD (US IOOS, Manual for Real-Time Quality Control of In-situ
 * Temperature and Salinity Data, doi 10.7289/V5V40SD4: gross range, spike, rate of change, flat line), with
 * limits for panels and rooms, and some of our own. Where no source stands beside a limit, it is common practice.
 */

/** A room that people work in, degC: outside it a reading is doubted. Common practice, no source. */
export const USUAL_ROOM_C: Range = { min: -25, max: 42 }
/** Metal that was in no oven, degC: lamps and heated blankets end there. Common practice, no source. */
const USUAL_METAL_C: Range = { min: -25, max: 95 }
/** Metal of a vehicle that was baked, degC. Common practice, no source. */
const BAKED_METAL_C: Range = { min: -25, max: 240 }

/**
 * The fastest panel, minutes: two sheets of 0.8 mm steel, still air on both sides. 7850 kg/m3 x 470 J/(kg K) x
 * 1.6 mm / (2 x 10 W/(m2 K)) is 295 s (Incropera, lumped capacitance; tables A.1 and 1.1).
 */
const FASTEST_PANEL_MINUTES = 5
/** The slowest that a shop's panel has been seen to be, minutes. Common practice, no source. */
const SLOWEST_PANEL_MINUTES = 240
/** A thermometer shows the same again within this, degC: far nearer than it is to the truth. Common practice, no source. */
const REPEATS_C = 0.4
/** Metal that reads the same so often, and for so long, is asked about. Common practice, no source. */
const STEADY_TIMES = 3
const STEADY_MINUTES = 60
/** Metal beside a radiator or in the sun is a little warmer than the air, degC. Common practice, no source. */
const METAL_MARGIN_C = 3
/** Further back a reading says nothing of how warm the panel is now, minutes. Common practice, no source. */
const METAL_MEMORY_MINUTES = 240

/** Air when a door opens or a heater starts: at once, degC, and on from there, degC/min. Common practice, no source. */
const AIR_STEP_C = 15
const AIR_RATE_C_PER_MIN = 1
const AIR_MEMORY_MINUTES = 360

/** Off the mean of its neighbours by more than this is a spike, degC (QARTOD test 6; the limit is ours). */
export const SPIKE_C = 12
/** Neighbours further away than this do not bear on it, minutes. */
const SPIKE_NEIGHBOUR_MINUTES = 60

/** The same digits for so long (QARTOD test 8), hours, while another moved by so much, degC. Common practice. */
export const STUCK_HOURS = 6
export const OTHERS_MOVED_C = 2

/** A unit is doubted from so far off what is known, degC. Common practice, no source. */
const SLIP_LEAST_C = 8

/** The same value again within this is asked about, seconds. Common practice, no source. */
const SENT_TWICE_SECONDS = 120

/** Two thermometers further apart than their accuracies and this disagree, degC. Common practice, no source. */
const DISAGREE_C = 2

/** A reading on record, believed. */
export type Known = Pick<Reading, 'atMs' | 'temperatureC' | 'accuracyC'>

/** A reading as it comes in. */
export interface Claim extends Reading {
  readonly enteredAtMs: number
  /** Of its instrument then; left out where none is named, or none was ever calibrated. */
  readonly inCalibration?: boolean | undefined
}

export interface MetalContext {
  /** Of the same joint, by time, believed, before this one. */
  readonly metal: readonly Known[]
  /** Everything else that was read off the same joint by the same hand or instrument, believed or not. */
  readonly byTheSame: readonly Known[]
  /** Of its bay since the application, by time, believed; empty where no thermometer hangs. */
  readonly air: readonly Known[]
  /** It was in an oven since: then it may be as hot as ovens make it. */
  readonly wasBaked: boolean
}

/** What makes a panel's reading doubtful; empty for a good one. */
export function judgeMetal(claim: Claim, context: MetalContext): readonly ReadingFinding[] {
  const { metal, byTheSame, air, wasBaked } = context
  const usual = wasBaked ? BAKED_METAL_C : USUAL_METAL_C
  const previous = recent(metal, claim.atMs, METAL_MEMORY_MINUTES)
  const lastAir = recent(air, claim.atMs, METAL_MEMORY_MINUTES)
  const known = [previous, lastAir].flatMap((reading) => (reading ? [reading.temperatureC] : []))
  return [
    ...unitSlip(claim.temperatureC, known),
    ...outOfRange(claim, usual),
    ...(wasBaked ? [] : againstAir(claim, previous, air)),
    ...unchanged(claim, byTheSame, air),
    ...entered(claim),
    ...sentTwice(claim, byTheSame),
  ]
}

/** Of the air where somebody is about to work, read once: `others` is what else is known of it, the last last. */
export function judgeRoomAir(claim: Known, others: readonly Known[]): readonly ReadingFinding[] {
  const { temperatureC } = claim
  const knownC = others.map((known) => known.temperatureC)
  const found = [...unitSlip(temperatureC, knownC), ...outOfRange(claim, USUAL_ROOM_C)]
  const other = others.at(-1)
  return found.length === 0 && other && disagree(claim, other)
    ? [{ kind: 'apart', otherC: other.temperatureC }]
    : found
}

function recent(readings: readonly Known[], atMs: number, minutes: number): Known | undefined {
  const last = readings.findLast((reading) => reading.atMs <= atMs)
  return last && atMs - last.atMs <= minutes * MS_PER_MINUTE ? last : undefined
}

export function outOfRange({ temperatureC }: Pick<Claim, 'temperatureC'>, usual: Range): ReadingFinding[] {
  if (isWithin(usual, temperatureC)) return []
  return [{ kind: 'outOfRange', lowC: usual.min, highC: usual.max }]
}

/**
 * The field was for the other unit: what was typed is off everything known, and taken as the other unit it is
 * not. With nothing known, a room that people work in is.
 */
export function unitSlip(temperatureC: number, knownC: readonly number[]): ReadingFinding[] {
  const readings = [
    { kind: 'fahrenheit', meantC: fahrenheitToCelsius(temperatureC) },
    { kind: 'celsius', meantC: celsiusToFahrenheit(temperatureC) },
  ] as const
  const off = distance(temperatureC, knownC)
  const slip = readings.find(
    ({ meantC }) =>
      isWithin(USUAL_ROOM_C, meantC) &&
      (knownC.length === 0
        ? !isWithin(USUAL_ROOM_C, temperatureC)
        : off > SLIP_LEAST_C && distance(meantC, knownC) < off / 2),
  )
  return slip ? [{ kind: slip.kind, meantC: Math.round(slip.meantC * 10) / 10 }] : []
}

function distance(c: number, knownC: readonly number[]): number {
  return Math.min(...knownC.map((known) => Math.abs(c - known)))
}

/**
 * How far metal gets in air that stays within a band, at the fastest: T = T0 + (air - T0)(1 - exp(-t/tau)).
 *
 * @returns degC, coldest and warmest.
 */
export function metalReach(fromC: number, airC: Range, minutes: number): Range {
  const share = 1 - Math.exp(-minutes / FASTEST_PANEL_MINUTES)
  return {
    min: fromC + Math.min(0, airC.min - fromC) * share,
    max: fromC + Math.max(0, airC.max - fromC) * share,
  }
}

function againstAir(claim: Claim, previous: Known | undefined, air: readonly Known[]): ReadingFinding[] {
  const { temperatureC, accuracyC, atMs } = claim
  const sinceMs = previous?.atMs ?? atMs - METAL_MEMORY_MINUTES * MS_PER_MINUTE
  const between = airBetween(air, sinceMs, atMs)
  const slack = accuracyC + METAL_MARGIN_C
  if (!previous)
    return between && temperatureC > between.max + slack ? [{ kind: 'aboveAir', airC: between.max }] : []
  const minutes = (atMs - previous.atMs) / MS_PER_MINUTE
  const reach = metalReach(previous.temperatureC, between ?? USUAL_ROOM_C, minutes)
  const most = reach.max + slack + previous.accuracyC
  const least = reach.min - slack - previous.accuracyC
  const previousC = previous.temperatureC
  if (temperatureC > most) {
    if (between && between.max < previousC)
      return [{ kind: 'warmsInColderAir', previousC, airC: between.max }]
    if (between && temperatureC > between.max + slack) return [{ kind: 'aboveAir', airC: between.max }]
    return [{ kind: 'tooFast', previousC, minutes, reachC: reach.max }]
  }
  return temperatureC < least ? [{ kind: 'tooFast', previousC, minutes, reachC: reach.min }] : []
}

/** The same digits as the last time by the same thermometer. */
function unchanged(claim: Claim, byTheSame: readonly Known[], air: readonly Known[]): ReadingFinding[] {
  const earlier = byTheSame.filter(
    ({ atMs }) => atMs < claim.atMs && claim.atMs - atMs <= METAL_MEMORY_MINUTES * MS_PER_MINUTE,
  )
  const run = earlier.slice(
    earlier.findLastIndex(({ temperatureC }) => temperatureC !== claim.temperatureC) + 1,
  )
  return [...standsStill(claim, run), ...unmoved(claim, run.at(-1), air)].slice(0, 1)
}

/**
 * The third time at the least, and for more than an hour: metal that is in the air, and a thermometer that shows tenths, are
 * seldom so steady. Whole degrees, in either unit, say nothing: some displays show no others.
 */
function standsStill({ atMs, temperatureC }: Claim, run: readonly Known[]): ReadingFinding[] {
  const first = run[0]
  if (!first || run.length + 1 < STEADY_TIMES) return []
  const minutes = (atMs - first.atMs) / MS_PER_MINUTE
  if (minutes <= STEADY_MINUTES || [temperatureC, celsiusToFahrenheit(temperatureC)].some(isWhole)) return []
  return [{ kind: 'unchanged', minutes: Math.round(minutes), times: run.length + 1 }]
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-6

/**
 * Although even the slowest metal must have moved by more than a thermometer repeats itself: dT = (air - T)(1 - exp(-t/tau)),
 * the air taken as near as its accuracy lets it be.
 */
function unmoved(
  { atMs, temperatureC, accuracyC }: Claim,
  before: Known | undefined,
  air: readonly Known[],
): ReadingFinding[] {
  if (!before) return []
  const between = airBetween(air, before.atMs, atMs)
  if (!between) return []
  const minutes = (atMs - before.atMs) / MS_PER_MINUTE
  const awayC = Math.max(between.min - temperatureC, temperatureC - between.max) - accuracyC
  const movedC = awayC * (1 - Math.exp(-minutes / SLOWEST_PANEL_MINUTES))
  if (movedC < REPEATS_C) return []
  const airC = between.min > temperatureC ? between.min : between.max
  return [{ kind: 'unchanged', minutes: Math.round(minutes), airC }]
}

/** The coldest and warmest that the air was, accuracy counted; undefined where nobody read it. */
function airBetween(air: readonly Known[], fromMs: number, toMs: number): Range | undefined {
  const first = air.findLastIndex(({ atMs }) => atMs <= fromMs)
  const around = air.slice(Math.max(0, first)).filter(({ atMs }) => atMs <= toMs)
  if (around.length === 0) return undefined
  return {
    min: Math.min(...around.map((reading) => reading.temperatureC - reading.accuracyC)),
    max: Math.max(...around.map((reading) => reading.temperatureC + reading.accuracyC)),
  }
}

/** When it was entered, and by what. */
export function entered({ atMs, enteredAtMs, inCalibration }: Claim): ReadingFinding[] {
  const minutes = (enteredAtMs - atMs) / MS_PER_MINUTE
  return [
    ...(toldLateMinutes(atMs, enteredAtMs) === null
      ? []
      : [{ kind: 'late', minutes: Math.round(minutes) } as const]),
    ...(inCalibration === false ? [{ kind: 'outOfCalibration' } as const] : []),
  ]
}

function sentTwice({ atMs, temperatureC }: Claim, byTheSame: readonly Known[]): ReadingFinding[] {
  const twin = byTheSame.find(
    (other) =>
      other.temperatureC === temperatureC && Math.abs(other.atMs - atMs) <= SENT_TWICE_SECONDS * 1000,
  )
  return twin ? [{ kind: 'sentTwice', seconds: Math.round(Math.abs(atMs - twin.atMs) / 1000) }] : []
}

/** Whether two readings of one thing, taken close together, bear one another out. */
export function agree(a: Known, b: Known): boolean {
  const minutes = Math.abs(a.atMs - b.atMs) / MS_PER_MINUTE
  return (
    minutes <= BEAR_OUT_MINUTES &&
    Math.abs(a.temperatureC - b.temperatureC) <= a.accuracyC + b.accuracyC + AGREE_C
  )
}

/** Metal changes little in so long. Common practice, no source. */
const BEAR_OUT_MINUTES = 15
/** Two spots of one flange, degC. Common practice, no source. */
const AGREE_C = 1

/** Whether two thermometers of one bay cannot both be right. */
export function disagree(a: Known, b: Known): boolean {
  return Math.abs(a.temperatureC - b.temperatureC) > a.accuracyC + b.accuracyC + DISAGREE_C
}

/** Air from one reading to the next: how far it may be off it, degC. */
export function airStepC(minutes: number): number {
  return AIR_STEP_C + AIR_RATE_C_PER_MIN * minutes
}

/** How long a reading of the same thermometer is held against the next, ms. */
export const AIR_MEMORY_MS = AIR_MEMORY_MINUTES * MS_PER_MINUTE
export const SPIKE_NEIGHBOUR_MS = SPIKE_NEIGHBOUR_MINUTES * MS_PER_MINUTE
