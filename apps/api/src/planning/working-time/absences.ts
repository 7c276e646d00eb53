import type { BodyOf, DayException, workingTimeRoutes } from '@clampclock/contracts'
import { DateTime } from 'luxon'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { resourceById } from '../../foundation/shops/resources.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { addDayException } from './exceptions.ts'

/** From one instant to another: part of the first day, the whole days between, part of the last, on the shop's clock. */
export async function addAbsence(
  tx: Tx,
  actor: Actor,
  resourceId: string,
  { from, until, note }: BodyOf<typeof workingTimeRoutes.addAbsence>,
): Promise<DayException[]> {
  const { shopId } = await resourceById(tx, resourceId)
  requireIn(actor, 'planWork', shopId)
  const { timeZone } = await shopById(tx, shopId)
  const added: DayException[] = []
  for (const part of partsOf(from, until, timeZone))
    added.push(await addDayException(tx, actor, shopId, { ...part, kind: 'absent', resourceId, note }))
  return added
}

type Part = Pick<DayException, 'firstDay' | 'lastDay' | 'from' | 'until'>

/**
 * What has a time of the clock that comes twice, on the night of a clock change, is stored by that time, and the calendar
 * takes it for the first of the two: what ends in the second one ends when the clock is through with both.
 */
export function partsOf(from: Date, until: Date, timeZone: string): Part[] {
  const start = DateTime.fromJSDate(from, { zone: timeZone }).startOf('minute')
  const end = wholeMinuteAfter(DateTime.fromJSDate(until, { zone: timeZone }))
  const firstDay = start.toISODate()!
  const lastDay = end.toISODate()!
  const startsWhole = start.equals(start.startOf('day'))
  const endsWhole = end.equals(end.startOf('day'))
  const clock = (at: DateTime) => at.toFormat('HH:mm')
  if (firstDay === lastDay) return [{ firstDay, lastDay, from: clock(start), until: clock(end) }]
  const parts: Part[] = []
  if (!startsWhole) parts.push({ firstDay, lastDay: firstDay, from: clock(start), until: '24:00' })
  const firstWhole = startsWhole ? start : start.plus({ days: 1 }).startOf('day')
  const lastWhole = end.startOf('day').minus({ days: 1 })
  if (firstWhole <= lastWhole)
    parts.push({
      firstDay: firstWhole.toISODate()!,
      lastDay: lastWhole.toISODate()!,
      from: null,
      until: null,
    })
  if (!endsWhole) parts.push({ firstDay: lastDay, lastDay, from: '00:00', until: clock(end) })
  return parts
}

/** Rounded up: somebody who is away until half a minute past is away that minute. */
function wholeMinuteAfter(at: DateTime): DateTime {
  const minute = at.startOf('minute')
  const end = minute.equals(at) ? minute : minute.plus({ minutes: 1 })
  const [first] = end.getPossibleOffsets()
  if (first!.equals(end)) return end
  let after = end
  while (after.getPossibleOffsets().length > 1) after = after.plus({ minutes: 1 })
  return after
}
