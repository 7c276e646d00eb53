import type { ProblemReason } from '@clampclock/contracts'
import type { ApplicationFault } from '@clampclock/cure'
import { message } from '@clampclock/messages'
import { apart as difference, degrees as temperature } from '../../foundation/words/params.ts'

/** Why adhesive must not go on this panel now, in the unit that the shop's thermometers show. */
export function applicationReason(fault: ApplicationFault, unit: 'C' | 'F'): ProblemReason {
  const degrees = (c: number) => temperature(c, unit)
  const apart = (c: number) => difference(c, unit)
  const field = 'body.panel.temperatureC'
  const facts = { panel: degrees(fault.panelC), accuracy: apart(fault.panelAccuracyC) }
  switch (fault.kind) {
    case 'tooCold':
      return {
        code: 'panel-too-cold',
        field,
        message: message('gate.panelTooCold', { ...facts, limit: degrees(fault.rangeC.min) }),
        fix: message('gate.panelTooColdFix'),
        overridable: true,
      }
    case 'tooHot':
      return {
        code: 'panel-too-hot',
        field,
        message: message('gate.panelTooHot', { ...facts, limit: degrees(fault.rangeC.max) }),
        fix: message('gate.panelTooHotFix'),
        overridable: true,
      }
    case 'nearDewPoint':
      return {
        code: 'near-dew-point',
        field,
        message: message(fault.marginC < 0 ? 'gate.belowDewPoint' : 'gate.nearDewPoint', {
          ...facts,
          margin: apart(Math.abs(fault.marginC)),
          dewPoint: degrees(fault.dewPointC),
          required: apart(fault.requiredMarginC),
        }),
        fix: message('gate.nearDewPointFix'),
        overridable: true,
      }
  }
}
