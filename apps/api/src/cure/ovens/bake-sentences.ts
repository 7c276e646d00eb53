import type { ProblemReason } from '@clampclock/contracts'
import type { BakeCaution, BakeRefusal } from '@clampclock/cure'
import { formatTemperature } from '@clampclock/quantities'
import { shopTime } from '../estimates/notes.ts'
import { heldReason } from '../../work/pure.ts'

/** How a bake is told to its reader. */
export interface BakeReader {
  readonly timeZone: string
  readonly unit: 'C' | 'F'
  /** Where the request has what a refusal is about: the program, what makes the metal hot, the move to the oven. */
  readonly fields: { readonly program: string; readonly heat: string; readonly moveAt: string }
}

/** What stands against a bake, in a sentence with its numbers. */
export function refusalReason(refusal: BakeRefusal, { timeZone, unit, fields }: BakeReader): ProblemReason {
  const degrees = (c: number) => formatTemperature(c, unit)
  const clock = (ms: number) => shopTime(ms, timeZone)
  switch (refusal.kind) {
    case 'targetNotReached':
      return {
        code: 'target-not-reached',
        field: `${fields.program}.setPointC`,
        message: `${refusal.panel} never reaches ${degrees(refusal.metalTargetC)}: the air may be as cold as ${degrees(refusal.coldestAirC)}`,
        fix: 'Set the oven warmer than the metal target by more than its tolerance',
      }
    case 'neverCool':
      return {
        code: 'never-cool',
        field: `${fields.program}.touchC`,
        message: `${refusal.panel} never cools to ${degrees(refusal.touchC)} in air of ${degrees(refusal.coolAirC)}`,
        fix: 'Let it cool in colder air, or wait less long for it',
      }
    case 'aboveServiceRange':
      return {
        code: 'service-range',
        field: fields.heat,
        message: `The metal would reach ${degrees(refusal.peakMetalC)}; ${refusal.product} on ${refusal.joint} is rated to ${degrees(refusal.highestC)}`,
        fix: 'Bake cooler',
      }
    case 'aboveVehicleLimit':
      return {
        code: 'vehicle-limit',
        field: fields.heat,
        message: `${refusal.panel ?? 'The metal'} would reach ${degrees(refusal.peakMetalC)}; the vehicle's own limit is ${degrees(refusal.vehicleLimitC)}`,
        fix: 'Bake cooler and longer, as the paint allows',
      }
    case 'notPastHandling': {
      const ready = refusal.handlingReadyAt
      const when = ready.kind === 'at' ? `only ${clock(ready.atMs)}` : 'not within the forecast'
      return {
        code: 'handling-strength',
        field: fields.moveAt,
        message: `${refusal.joint} reaches handling strength ${when} on the careful estimate; it would be moved ${clock(refusal.moveAtMs)}`,
        fix: 'Bake later',
      }
    }
    case 'held':
      return heldReason(refusal.joint, refusal.state)
  }
}

/** What must be known of a bake that is not refused for it. */
export function cautionReason(caution: BakeCaution, { unit, fields }: BakeReader): ProblemReason {
  const degrees = (c: number) => formatTemperature(c, unit)
  return {
    code: 'above-highest-cure',
    field: fields.heat,
    message: `${caution.joint} would get to ${degrees(caution.peakMetalC)} before it is fully cured; its sheet credits no heat above ${degrees(caution.highestCureC)}`,
  }
}
