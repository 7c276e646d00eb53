import type { ProblemReason } from '@clampclock/contracts'
import type { ApplicationFault } from '@clampclock/cure'
import { formatTemperature, formatTemperatureDifference } from '@clampclock/quantities'

/** Why adhesive must not go on this panel now, in the unit that the shop's thermometers show. */
export function applicationReason(fault: ApplicationFault, unit: 'C' | 'F'): ProblemReason {
  const degrees = (c: number) => formatTemperature(c, unit)
  const apart = (c: number) => formatTemperatureDifference(c, unit)
  const field = 'body.panel.temperatureC'
  const panel = `The panel is at ${degrees(fault.panelC)} (± ${apart(fault.panelAccuracyC)})`
  switch (fault.kind) {
    case 'tooCold':
      return {
        code: 'panel-too-cold',
        field,
        message: `${panel}, below the ${degrees(fault.rangeC.min)} of the data sheet`,
        fix: 'Warm the panel',
        overridable: true,
      }
    case 'tooHot':
      return {
        code: 'panel-too-hot',
        field,
        message: `${panel}, above the ${degrees(fault.rangeC.max)} of the data sheet`,
        fix: 'Let the panel cool',
        overridable: true,
      }
    case 'nearDewPoint':
      return {
        code: 'near-dew-point',
        field,
        message: `${panel}: ${apart(fault.marginC)} above the dew point of ${degrees(fault.dewPointC)}, and ${apart(fault.requiredMarginC)} are needed`,
        fix: 'Warm the panel, or dry the air',
        overridable: true,
      }
  }
}
