import type { BodyOf, DayException, workingTimeRoutes } from '@clampclock/contracts'
import { DateTime } from 'luxon'
import { requireIn, type Actor } from '../access/actor.ts'
import type { Tx } from '../database/database.ts'
import { resourceById } from '../shops/resources.ts'
import { shopById } from '../shops/shops.ts'
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

export function partsOf(from: Date, until: Date, timeZone: string): Part[] {
  const start = DateTime.fromJSDate(from, { zone: timeZone }).startOf('minute')
  const end = DateTime.fromJSDate(until, { zone: timeZone }).startOf('minute')
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
