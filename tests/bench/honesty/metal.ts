/** True metal in true air, and the true share of cure: an own integration in small steps. */
import type { DataSheet } from '@clampclock/cure'

export interface Metal {
  readonly lagMinutes: number
  readonly startC: number
  /** A second mass behind the first, which it trades heat with: share of all mass, and minutes. */
  readonly inner?: { readonly share: number; readonly exchangeMinutes: number } | undefined
}

const STEPS_PER_MINUTE = 4

/** By the minute from the bond on. */
export function metalOf(metal: Metal, airC: Float64Array, bondAtMinute: number): Float64Array {
  const minutes = airC.length - bondAtMinute
  const out = new Float64Array(minutes)
  let c = metal.startC
  let innerC = metal.startC
  const dt = 1 / STEPS_PER_MINUTE
  for (let i = 0; i < minutes; i++) {
    out[i] = c
    const a = airC[bondAtMinute + i]!
    const slope = (airC[Math.min(airC.length - 1, bondAtMinute + i + 1)]! - a) * dt
    for (let step = 0; step < STEPS_PER_MINUTE; step++) {
      const air = a + slope * (step + 0.5)
      if (metal.inner === undefined) c = air + (c - air) * Math.exp(-dt / metal.lagMinutes)
      else {
        const { share, exchangeMinutes } = metal.inner
        const flow = (innerC - c) / exchangeMinutes
        c += dt * ((air - c) / (metal.lagMinutes * (1 - share)) + flow / (1 - share))
        innerC -= dt * (flow / share)
      }
    }
  }
  return out
}

const KELVIN = 273.15

/** Rate to handling strength straight from the sheet: the straight line of ln t over 1/T, the nearest goes on. */
export function rateOf(sheet: DataSheet): (c: number) => number {
  const points = sheet.points
    .map((point) => [1 / (point.temperatureC + KELVIN), Math.log(point.handlingTimeMinutes)] as const)
    .toSorted((a, b) => b[0] - a[0])
  return (temperatureC) => {
    if (temperatureC < sheet.lowestCureC) return 0
    const x = 1 / (Math.min(temperatureC, sheet.highestCureC) + KELVIN)
    let i = 1
    while (i < points.length - 1 && x < points[i]![0]) i++
    const [a, b] = [points[i - 1]!, points[i]!]
    return Math.exp(-(a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1])))
  }
}

/** True share of cure by the minute. */
export function shareOf(metalC: Float64Array, rate: (c: number) => number): Float64Array {
  const out = new Float64Array(metalC.length)
  let [sum, before] = [0, rate(metalC[0]!)]
  for (let i = 1; i < metalC.length; i++) {
    const next = rate(metalC[i]!)
    sum += (before + next) / 2
    before = next
    out[i] = sum
  }
  return out
}

/** Minute, with its fraction, at which the share passes `value`; Infinity when it never does. */
export function minuteOf(share: Float64Array, value: number): number {
  let [low, high] = [0, share.length - 1]
  if (share[high]! < value) return Infinity
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (share[middle]! < value) low = middle
    else high = middle
  }
  return low + (value - share[low]!) / (share[high]! - share[low]!)
}

export function shareAt(share: Float64Array, minute: number): number {
  const i = Math.min(Math.max(0, Math.floor(minute)), share.length - 2)
  return share[i]! + (share[i + 1]! - share[i]!) * (minute - i)
}
