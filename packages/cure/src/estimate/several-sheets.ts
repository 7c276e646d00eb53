import type { BondEstimate, MilestoneEstimate, ReadyInstant, ThreeLines } from './estimate-figures.ts'
import type { EstimateNote } from '../readings/notes.ts'
import { weakerBasis } from '../sheet/rate-curve.ts'

/**
 * Of two estimates of one bond, each by another revision of its data sheet, the slower to handling strength and full cure,
 * and the quicker end of the work time, on every line: a revision that is faster never hastens what was begun by a slower
 * one, and one that is slower is believed at once.
 */
export function slowerOf(a: BondEstimate, b: BondEstimate): BondEstimate {
  return {
    workTime: merged(a.workTime, b.workTime, sooner, Math.max),
    handlingStrength: merged(a.handlingStrength, b.handlingStrength, later, Math.min),
    fullCure: merged(a.fullCure, b.fullCure, later, Math.min),
    notes: [...a.notes, ...b.notes.filter((note) => !a.notes.some((told) => isSame(told, note)))],
  }
}

type Choice<T> = (a: T, b: T) => T

function merged(
  a: MilestoneEstimate,
  b: MilestoneEstimate,
  ready: Choice<ReadyInstant>,
  progress: Choice<number>,
): MilestoneEstimate {
  return {
    milestone: a.milestone,
    progress: lineByLine(a.progress, b.progress, progress),
    readyAt: lineByLine(a.readyAt, b.readyAt, ready),
    basis: weakerBasis(a.basis, b.basis),
  }
}

function lineByLine<T>(a: ThreeLines<T>, b: ThreeLines<T>, pick: Choice<T>): ThreeLines<T> {
  return {
    earliest: pick(a.earliest, b.earliest),
    expected: pick(a.expected, b.expected),
    conservative: pick(a.conservative, b.conservative),
  }
}

const instant = (ready: ReadyInstant): number => (ready.kind === 'at' ? ready.atMs : Infinity)

const later: Choice<ReadyInstant> = (a, b) => (instant(b) > instant(a) ? b : a)
const sooner: Choice<ReadyInstant> = (a, b) => (instant(b) < instant(a) ? b : a)

/** Notes are plain data of one shape for each kind. */
const isSame = (a: EstimateNote, b: EstimateNote): boolean => JSON.stringify(a) === JSON.stringify(b)
