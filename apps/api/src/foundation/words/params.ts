import type { Message, Param, Told } from '@clampclock/messages'
import { message } from '@clampclock/messages'
import type { Prisma } from '../../generated/prisma/client.ts'

const MINUTE_MS = 60_000

type Unit = 'C' | 'F'

/**
 * An instant on its shop's clock, to the minute: `Tue 14:05`, since a bond lasts days, not weeks. As data it is whole
 * minutes too, so that an alert that says the same is the same.
 */
export function onClock(atMs: number, zone: string): Param {
  return clock(Math.floor(atMs / MINUTE_MS), zone)
}

/** As `onClock`, for when something is ready: never a minute too early. */
export function readyOnClock(atMs: number, zone: string): Param {
  return clock(Math.ceil(atMs / MINUTE_MS), zone)
}

function clock(minute: number, zone: string): Param {
  return { instant: new Date(minute * MINUTE_MS).toISOString(), style: 'weekdayClock', zone }
}

/** An instant of any day on its shop's clock: `7 May 2031, 14:05`. */
export function written(at: Date, zone: string): Param {
  return { instant: at.toISOString(), style: 'full', zone }
}

/** degC, shown with `digits` decimals to whoever has chosen no unit in that of the shop. As data to a hundredth. */
export function degrees(c: number, shopUnit: Unit, digits?: number): Param {
  return { celsius: rounded(c, 2), shopUnit, ...(digits === undefined ? {} : { digits }) }
}

/** A difference in degC, to a tenth: as data it does not move with each reading. */
export function apart(c: number, shopUnit: Unit): Param {
  return { celsiusDifference: rounded(c, 1), shopUnit }
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits))
}

/** A sentence within another. */
export function param(sentence: Told): Param {
  return typeof sentence === 'string' ? sentence : { message: sentence }
}

/** Several, one after the other; each ends without a full stop. */
export function sentences(all: readonly Told[]): Message {
  return message('reason.several', { all: { list: all.map(param), join: 'sentences' } })
}

/** For a column. */
export function asJson(said: Message): Prisma.InputJsonValue {
  return said as unknown as Prisma.InputJsonValue
}
