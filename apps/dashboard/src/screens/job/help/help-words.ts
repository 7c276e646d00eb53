import type { Help } from '@clampclock/contracts'
import { celsiusToFahrenheit } from '@clampclock/quantities'

/** What keeps it from being any warmer. */
export const BECAUSE = {
  highestCure: 'its data sheet credits no heat above that',
  serviceRange: 'the product is rated no higher',
  otherProduct: 'another product on the vehicle is rated no higher',
  vehicle: "the vehicle's own limit",
  equipment: 'more the heater or lamp cannot do',
  workTime: 'a joint may still be open, and more would take its work time away',
} as const satisfies Record<Help['limit']['because'], string>

/** Rounded up in the reader's unit: a tenth of a degree less would be too late. */
export function atLeast(c: number, unit: 'C' | 'F'): string {
  const shown = unit === 'C' ? c : celsiusToFahrenheit(c)
  return `${(Math.ceil(shown * 10 - 1e-6) / 10).toFixed(1)} °${unit}`
}

/** Minutes that one degree of the reader's saves. */
export function savedPerDegree(minutesPerC: number, unit: 'C' | 'F'): string {
  const minutes = unit === 'F' ? minutesPerC / 1.8 : minutesPerC
  return `${minutes < 10 ? minutes.toFixed(1) : Math.round(minutes)} min for each °${unit}`
}
