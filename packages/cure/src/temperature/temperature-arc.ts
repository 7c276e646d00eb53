import { celsiusToKelvin } from '@clampclock/quantities'

/**
 * The temperature of a bond over a stretch of time, t from 0 to `minutes`: T(t) = startC + (endC - startC) t
 * / minutes + transientC exp(-t / tauMinutes). With no transient it is a straight line between two readings;
 * with one it is the exact answer of a panel with time constant tau to air that changes linearly (dT/dt =
 * (T_air - T) / tau).
 */
export interface TemperatureArc {
  readonly minutes: number
  readonly startC: number
  readonly endC: number
  readonly transientC: number
  readonly tauMinutes: number
}

/** A straight line from one temperature to another. */
export function linearArc(minutes: number, startC: number, endC: number): TemperatureArc {
  return { minutes, startC, endC, transientC: 0, tauMinutes: 1 }
}

/**
 * A panel that starts at `panelC` and follows air that goes linearly from `airStartC` to `airEndC`.
 * Particular solution: the air's line, tau behind it; the rest decays as exp(-t / tau).
 */
export function followingArc(
  minutes: number,
  panelC: number,
  airStartC: number,
  airEndC: number,
  tauMinutes: number,
): TemperatureArc {
  const lagC = minutes === 0 ? 0 : ((airEndC - airStartC) / minutes) * tauMinutes
  const startC = airStartC - lagC
  return { minutes, startC, endC: airEndC - lagC, transientC: panelC - startC, tauMinutes }
}

/** Temperature `t` minutes into the arc, degC. */
export function arcC(arc: TemperatureArc, t: number): number {
  const line = arc.minutes === 0 ? arc.startC : arc.startC + ((arc.endC - arc.startC) * t) / arc.minutes
  return arc.transientC === 0 ? line : line + arc.transientC * Math.exp(-t / arc.tauMinutes)
}

/** Temperature `t` minutes into the arc, kelvin. */
export function arcK(arc: TemperatureArc, t: number): number {
  return celsiusToKelvin(arcC(arc, t))
}

/** The instant inside (from, to) where an arc turns, or undefined: it has at most one such point. */
export function turningPoint(arc: TemperatureArc, from: number, to: number): number | undefined {
  if (arc.transientC === 0 || arc.minutes === 0) return undefined
  const slope = (arc.endC - arc.startC) / arc.minutes
  const ratio = (slope * arc.tauMinutes) / arc.transientC
  if (!(ratio > 0)) return undefined
  const t = -arc.tauMinutes * Math.log(ratio)
  return t > from && t < to ? t : undefined
}

/**
 * Where an arc that only rises or only falls on [from, to] passes `c`, minutes. `c` must lie between its
 * ends.
 */
export function crossingOf(arc: TemperatureArc, from: number, to: number, c: number): number {
  const [a, b] = [arcC(arc, from), arcC(arc, to)]
  if (arc.transientC === 0) return from + ((to - from) * (c - a)) / (b - a)
  let [low, high] = [from, to]
  let t = (low + high) / 2
  for (let step = 0; step < 200 && high - low > 1e-13 * (1 + Math.abs(high)); step++) {
    const value = arcC(arc, t) - c
    if (value === 0) return t
    if (value < 0 === a < c) low = t
    else high = t
    const slope =
      (arc.endC - arc.startC) / arc.minutes -
      (arc.transientC / arc.tauMinutes) * Math.exp(-t / arc.tauMinutes)
    const newton = t - value / slope
    t = newton > low && newton < high ? newton : (low + high) / 2
  }
  return t
}
