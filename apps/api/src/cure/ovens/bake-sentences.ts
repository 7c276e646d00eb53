import type { ProblemReason } from '@clampclock/contracts'
import type { BakeCaution, BakeRefusal } from '@clampclock/cure'
import { message } from '@clampclock/messages'
import { degrees as temperature, onClock, readyOnClock } from '../../foundation/words/params.ts'
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
  const degrees = (c: number) => temperature(c, unit)
  switch (refusal.kind) {
    case 'targetNotReached':
      return {
        code: 'target-not-reached',
        field: `${fields.program}.setPointC`,
        message: message('bake.targetNotReached', {
          panel: refusal.panel,
          target: degrees(refusal.metalTargetC),
          air: degrees(refusal.coldestAirC),
        }),
        fix: message('bake.targetNotReachedFix'),
      }
    case 'neverCool':
      return {
        code: 'never-cool',
        field: `${fields.program}.touchC`,
        message: message('bake.neverCool', {
          panel: refusal.panel,
          touch: degrees(refusal.touchC),
          air: degrees(refusal.coolAirC),
        }),
        fix: message('bake.neverCoolFix'),
      }
    case 'aboveServiceRange':
      return {
        code: 'service-range',
        field: fields.heat,
        message: message('bake.aboveServiceRange', {
          peak: degrees(refusal.peakMetalC),
          product: refusal.product,
          joint: refusal.joint,
          highest: degrees(refusal.highestC),
        }),
        fix: message('bake.aboveServiceRangeFix'),
      }
    case 'aboveVehicleLimit':
      return {
        code: 'vehicle-limit',
        field: fields.heat,
        message: message('bake.aboveVehicleLimit', {
          panel: refusal.panel ?? { message: message('bake.theMetal') },
          peak: degrees(refusal.peakMetalC),
          limit: degrees(refusal.vehicleLimitC),
        }),
        fix: message('bake.aboveVehicleLimitFix'),
      }
    case 'notPastHandling': {
      const ready = refusal.handlingReadyAt
      const what = { joint: refusal.joint, move: onClock(refusal.moveAtMs, timeZone) }
      return {
        code: 'handling-strength',
        field: fields.moveAt,
        message:
          ready.kind === 'at'
            ? message('bake.notPastHandling', { ...what, ready: readyOnClock(ready.atMs, timeZone) })
            : message('bake.notPastHandlingForecast', what),
        fix: message('bake.notPastHandlingFix'),
      }
    }
    case 'held':
      return heldReason(refusal.joint, refusal.state)
  }
}

/** What must be known of a bake that is not refused for it. */
export function cautionReason(caution: BakeCaution, { unit, fields }: BakeReader): ProblemReason {
  return {
    code: 'above-highest-cure',
    field: fields.heat,
    message: message('bake.aboveHighestCure', {
      joint: caution.joint,
      peak: temperature(caution.peakMetalC, unit),
      highest: temperature(caution.highestCureC, unit),
    }),
  }
}
