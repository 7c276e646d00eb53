import type { DeviceInstant } from '../../api/server-clock.ts'
import type { Draft } from './application.ts'

/** What the service was asked last, and when. */
export interface Asked {
  readonly draft: Draft
  readonly at: DeviceInstant
}

/** What an answer rests on: everything but what was written against it since. */
function wholeOf({ overrides: _overrides, confirmed: _confirmed, shortBecause: _short, ...rest }: Draft) {
  return rest
}

/** What a question about a temperature is about: the bay's thermometer is held against both. */
function readingsOf({ panelC, airC, thermometer, bayId }: Draft) {
  return { panelC, airC, thermometer, bayId }
}

function amountOf({ amountMl, cartridgeIds }: Draft) {
  return { amountMl, cartridgeIds }
}

const PARTS = { whole: wholeOf, readings: readingsOf, amount: amountOf } as const

/** Whether the form holds in this part what it held when the service was asked. */
export function isSame(part: keyof typeof PARTS, asked: Draft, draft: Draft): boolean {
  return JSON.stringify(PARTS[part](asked)) === JSON.stringify(PARTS[part](draft))
}
