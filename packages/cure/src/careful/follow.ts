import { MS_PER_MINUTE } from '@clampclock/quantities'
import { mayPass, partsBeyond } from '../temperature/arc-limits.ts'
import { MILESTONES } from '../sheet/data-sheet.ts'
import { integrateLine, minutesToReach } from '../temperature/integrate.ts'
import { integrateCurves } from '../temperature/integrate-curves.ts'
import { withInterval, type EstimateNote } from '../readings/notes.ts'
import { celsiusToKelvin } from '@clampclock/quantities'
import { arcC, followingArc, linearArc, type TemperatureArc } from '../temperature/temperature-arc.ts'
import { LINES, type Line } from '../readings/temperature-line.ts'
import type { Piece } from './air.ts'
import type { LagBin, LineCurves } from './bins.ts'

/** What a bin is led through a stretch with. */
export interface Guide {
  readonly curves: LineCurves
  readonly appliedAtMs: number
  /** Coldest and warmest that has counted towards each figure, degC. */
  readonly countedC: (readonly [number, number] | null)[]
  /** Figures that passed one are left as they are: enough where only instants are asked for. */
  readonly stopsAtOne: boolean
}

/** The cold line of a bin alone. */
export function leadCold(bin: LagBin, piece: Piece, guide: Guide): void {
  const minutes = (piece.toMs - piece.fromMs) / MS_PER_MINUTE
  const arcs = arcsOf(bin, piece, 0, minutes)
  let fromMs = piece.fromMs
  for (const arc of arcs) {
    advance(bin, 0, arc, fromMs, guide)
    fromMs += arc.minutes * MS_PER_MINUTE
  }
  bin.panelC = [endC(arcs), bin.panelC[1], bin.panelC[2]]
}

/** The same without any progress. @returns the coldest that the cold line gets on the way, degC. */
export function leadColdMetal(bin: LagBin, piece: Piece): number {
  const arcs = arcsOf(bin, piece, 0, (piece.toMs - piece.fromMs) / MS_PER_MINUTE)
  const startC = bin.panelC[0]
  bin.panelC = [endC(arcs), bin.panelC[1], bin.panelC[2]]
  // Each arc only rises or only falls: an end of one is the coldest.
  return Math.min(startC, ...arcs.map((arc) => arcC(arc, arc.minutes)))
}

const gained = [0, 0, 0]

/**
 * One bin through a stretch of air that goes in straight lines, or of metal that was itself measured. The cold line
 * is slow to warm and quick to cool, the warm line the other way round, each as far as the bin's bounds allow:
 * no time constant between them gets outside.
 *
 * @returns the arcs of its expected line and of the outer two, for whoever notes what they pass.
 */
export function lead(bin: LagBin, piece: Piece, guide: Guide): readonly (readonly TemperatureArc[])[] {
  const minutes = (piece.toMs - piece.fromMs) / MS_PER_MINUTE
  const arcs = LINES.map((line) => arcsOf(bin, piece, line, minutes))
  for (const line of LINES) {
    let fromMs = piece.fromMs
    for (const arc of arcs[line]!) {
      advance(bin, line, arc, fromMs, guide)
      fromMs += arc.minutes * MS_PER_MINUTE
    }
  }
  bin.panelC = [endC(arcs[0]!), endC(arcs[1]!), endC(arcs[2]!)]
  return arcs
}

const endC = (arcs: readonly TemperatureArc[]): number => {
  const last = arcs.at(-1)!
  return arcC(last, last.minutes)
}

function arcsOf(bin: LagBin, piece: Piece, line: Line, minutes: number): readonly TemperatureArc[] {
  const [a, b] = [piece.from[line], piece.to[line]]
  if (piece.kind === 'metal') return [linearArc(minutes, a, b)]
  const c = bin.panelC[line]
  if (line === 1) return [followingArc(minutes, c, a, b, bin.expectedMinutes)]
  const { fastMinutes, slowMinutes } = bin
  return line === 0
    ? towards(minutes, c, a, b, slowMinutes, fastMinutes)
    : towards(minutes, c, a, b, fastMinutes, slowMinutes)
}

/** Metal that warms with one time constant and cools with another; it meets its air at most once on a straight line. */
function towards(
  minutes: number,
  c: number,
  a: number,
  b: number,
  warmingMinutes: number,
  coolingMinutes: number,
): readonly TemperatureArc[] {
  const slope = minutes === 0 ? 0 : (b - a) / minutes
  const lack = a - c
  const warms = lack > 0 || (lack === 0 && slope > 0)
  const tau = warms ? warmingMinutes : coolingMinutes
  const whole = followingArc(minutes, c, a, b, tau)
  const overtakes = warms ? slope < 0 && lack > 0 : slope > 0 && lack < 0
  if (!overtakes || b - arcC(whole, minutes) > 0 === warms) return [whole]
  const meet = Math.min(minutes, tau * Math.log(1 - lack / (slope * tau)))
  const meetC = a + slope * meet
  const first = followingArc(meet, c, a, meetC, tau)
  const rest = followingArc(minutes - meet, meetC, meetC, b, warms ? coolingMinutes : warmingMinutes)
  return [first, rest]
}

function advance(bin: LagBin, line: Line, arc: TemperatureArc, fromMs: number, guide: Guide): void {
  const from = Math.max(0, (guide.appliedAtMs - fromMs) / MS_PER_MINUTE)
  if (!(arc.minutes > from)) return
  const curves = guide.curves[line]
  if (guide.stopsAtOne && MILESTONES.every((_, m) => bin.reachedAtMs[m * LINES.length + line] !== null))
    return
  if (arc.transientC === 0) {
    const [aK, bK] = [celsiusToKelvin(arcC(arc, from)), celsiusToKelvin(arcC(arc, arc.minutes))]
    for (let m = 0; m < curves.length; m++) gained[m] = integrateLine(curves[m]!, aK, bK, arc.minutes - from)
  } else integrateCurves(curves, arc, from, arc.minutes, gained)
  for (let m = 0; m < curves.length; m++) {
    if (!(gained[m]! > 0)) continue
    const i = m * LINES.length + line
    const before = bin.progress[i]!
    bin.progress[i] = before + gained[m]!
    if (bin.reachedAtMs[i] !== null) continue
    const isReached = before + gained[m]! >= 1
    const to = isReached ? minutesToReach(curves[m]!, arc, from, arc.minutes, 1 - before) : arc.minutes
    // What comes after the milestone is no part of what its figure rests on.
    count(guide.countedC, i, arcC(arc, from), arcC(arc, to))
    if (isReached) bin.reachedAtMs[i] = Math.ceil(fromMs + to * MS_PER_MINUTE)
  }
}

/** Widens the range of temperatures that have counted. */
export function count(countedC: (readonly [number, number] | null)[], i: number, a: number, b: number): void {
  const counted = countedC[i]
  if (counted && a >= counted[0] && a <= counted[1] && b >= counted[0] && b <= counted[1]) return
  countedC[i] = [Math.min(counted?.[0] ?? a, a, b), Math.max(counted?.[1] ?? a, a, b)]
}

/** Notes of what the arcs of one bin pass: the cold line below the lowest cure temperature, and so on. */
export function passed(
  notes: readonly EstimateNote[],
  arcs: readonly (readonly TemperatureArc[])[],
  piece: Piece,
  guide: Guide,
  limits: { readonly lowestCureC: number; readonly highestCureC: number; readonly isFullyCured: boolean },
): readonly EstimateNote[] {
  const { lowestCureC, highestCureC, isFullyCured } = limits
  let noted = notes
  const each = (line: Line, act: (arc: TemperatureArc, fromMs: number, from: number) => void): void => {
    let fromMs = piece.fromMs
    for (const arc of arcs[line]!) {
      const from = Math.max(0, (guide.appliedAtMs - fromMs) / MS_PER_MINUTE)
      if (arc.minutes > from) act(arc, fromMs, from)
      fromMs += arc.minutes * MS_PER_MINUTE
    }
  }
  if (!isFullyCured) {
    each(0, (arc, startMs, from) => {
      if (!mayPass(arc, from, lowestCureC, -1)) return
      for (const [fromMs, toMs] of partsBeyond(arc, startMs, from, lowestCureC, -1))
        noted = withInterval(noted, { kind: 'stalled', fromMs, toMs, lowestCureC })
    })
  }
  each(1, (arc, startMs, from) => {
    if (!mayPass(arc, from, highestCureC, 1)) return
    for (const [fromMs, toMs] of partsBeyond(arc, startMs, from, highestCureC, 1))
      noted = withInterval(noted, { kind: 'capped', fromMs, toMs, highestCureC })
  })
  return noted
}
