import { message, type Param } from '@clampclock/messages'
import type { ProblemReason, Sensor } from '@clampclock/contracts'
import { isWithin, PLAUSIBLE_TEMPERATURE_C, ROOM_AIR_C, type Range } from '@clampclock/quantities'
import type { Tx } from '../../foundation/database/database.ts'

/** What a thermometer may read where it hangs, degC: an oven is as hot as ovens are, everything else is a room. */
export async function airRange(tx: Tx, { resourceId }: Pick<Sensor, 'resourceId'>): Promise<Range> {
  const oven =
    resourceId !== null && (await tx.resource.findFirst({ where: { id: resourceId, kind: 'oven' } }))
  return oven ? PLAUSIBLE_TEMPERATURE_C : ROOM_AIR_C
}

/** As it was sent: the API takes degC, whatever the reader reads. */
const plain = (c: number): Param => ({ message: message('field.withUnit', { value: c, unit: 'degC' }) })

/** Null for a temperature that may be. */
export function airFault(temperatureC: number, range: Range, field: string): ProblemReason | null {
  if (isWithin(range, temperatureC)) return null
  const { min, max } = range
  const said = { value: plain(temperatureC), low: plain(min), high: plain(max) }
  return {
    code: 'not-room-air',
    field,
    message: message('cure-problem.notRoomAir', said),
    fix: message('cure-problem.checkFahrenheitFix'),
  }
}
