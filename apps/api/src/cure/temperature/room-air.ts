import type { ProblemReason, Sensor } from '@clampclock/contracts'
import { isWithin, PLAUSIBLE_TEMPERATURE_C, ROOM_AIR_C, type Range } from '@clampclock/quantities'
import type { Tx } from '../../foundation/database/database.ts'

/** What a thermometer may read where it hangs, degC: an oven is as hot as ovens are, everything else is a room. */
export async function airRange(tx: Tx, { resourceId }: Pick<Sensor, 'resourceId'>): Promise<Range> {
  const oven =
    resourceId !== null && (await tx.resource.findFirst({ where: { id: resourceId, kind: 'oven' } }))
  return oven ? PLAUSIBLE_TEMPERATURE_C : ROOM_AIR_C
}

/** Null for a temperature that may be; `name` is how its field is told. */
export function airFault(temperatureC: number, range: Range, field: string, name = ''): ProblemReason | null {
  if (isWithin(range, temperatureC)) return null
  const { min, max } = range
  return {
    code: 'not-room-air',
    field,
    message: `${name}is ${temperatureC} degC, and must be ${min} to ${max} degC: nobody works in air outside that`,
    fix: 'Check whether it is in degF, and whether the thermometer is broken',
  }
}
