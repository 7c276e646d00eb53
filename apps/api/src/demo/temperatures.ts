import { DateTime } from 'luxon'
import type { DemoShop } from './shops.ts'
import type { Random } from './random.ts'

export const WEEKS = 3
const STEP_MINUTES = 20

export interface DemoReading {
  readonly at: Date
  readonly temperatureC: number
  readonly relativeHumidityPercent: number
}

/** Air of a bay over the last weeks: heated by day, falling at night and further at the weekend, no two days alike. */
export function bayAir(shop: DemoShop, offsetC: number, random: Random, until: Date): DemoReading[] {
  const { dayC, nightDropC, driftC, humidity } = shop.climate
  let drift = 0
  return steps(until).map((at) => {
    const local = DateTime.fromJSDate(at, { zone: shop.timeZone })
    // A slow walk that is pulled back to nothing: warm spells and cold spells.
    drift += (random.next() - 0.5) * driftC * 0.12 - drift * 0.004
    const hour = local.hour + local.minute / 60
    const night = (1 - Math.cos(((hour - 15) / 24) * 2 * Math.PI)) / 2
    const weekend = local.weekday >= 6 ? 0.3 : 0
    const temperatureC = dayC + offsetC + drift - nightDropC * (night + weekend) + (random.next() - 0.5) * 0.4
    const relativeHumidityPercent = Math.min(
      78,
      Math.max(20, humidity + (dayC - temperatureC) * 1.4 + (random.next() - 0.5) * 3),
    )
    return { at, temperatureC: round(temperatureC), relativeHumidityPercent: round(relativeHumidityPercent) }
  })
}

/** Air of a cabinet or shelf: steadier than a bay; `warmC` is how far it lies above 20 degC, `spike` an afternoon that cooked it. */
export function storageAir(warmC: number, spike: boolean, random: Random, until: Date): DemoReading[] {
  return steps(until).map((at) => {
    const hoursAgo = (until.getTime() - at.getTime()) / 3_600_000
    const cooked = spike && hoursAgo > 50 && hoursAgo < 54 ? 14 : 0
    const daily = Math.sin((hoursAgo / 24) * 2 * Math.PI) * 1.2
    return {
      at,
      temperatureC: round(20 + warmC + daily + cooked + (random.next() - 0.5) * 0.6),
      relativeHumidityPercent: round(45 + (random.next() - 0.5) * 6),
    }
  })
}

function steps(until: Date): Date[] {
  const count = (WEEKS * 7 * 24 * 60) / STEP_MINUTES
  const last = Math.floor(until.getTime() / 60_000) * 60_000
  return Array.from({ length: count }, (_, i) => new Date(last - (count - 1 - i) * STEP_MINUTES * 60_000))
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}
