import { requireInRange, requireNotNegative, requirePositive, type Range } from '@clampclock/quantities'
import { PLAUSIBLE_TEMPERATURE_C, type DataSheet } from '../sheet/data-sheet.ts'
import type { ReadyInstant, ThreeLines } from '../estimate/estimate-figures.ts'
import type { AgainstBake } from './bake-limits.ts'

/** What the oven is told, and what the paint asks of the metal. */
export interface BakeProgram {
  /** Air when the vehicle comes in, degC. */
  readonly airStartC: number
  readonly setPointC: number
  /** How fast the air rises; at once when not given. */
  readonly rampCPerMinute?: number
  /** How far the air may be off its set point, degC, 0 to 30. */
  readonly airToleranceC: number
  /** The dwell counts from the slowest panel at this temperature, not from the set point. */
  readonly metalTargetC: number
  readonly dwellMinutes: number
  /** Air it cools down in, degC. */
  readonly coolAirC: number
  /** The vehicle may be touched from here down, degC. */
  readonly touchC: number
}

export interface OvenPanel {
  readonly name: string
  readonly tauMinutes: number
  /** In the air that it cools down in; as in the oven when not given. */
  readonly coolingTauMinutes?: number
}

export interface OvenBond {
  readonly joint: string
  readonly product: string
  readonly sheet: DataSheet
  /** Panel that the joint is on. */
  readonly panel: string
  /** The conservative instant of handling strength. */
  readonly handlingReadyAt: ReadyInstant
  /** Where the joint stands, when a person has to do something about it first; null or left out: nobody has to. */
  readonly heldBy?: AgainstBake | null
  /** Full cure when the bake starts. */
  readonly fullCureProgress: ThreeLines<number>
}

export interface BakeRequest {
  readonly program: BakeProgram
  /** When the vehicle is moved to the oven, ms. */
  readonly moveAtMs: number
  readonly metalStartC: number
  readonly panels: readonly OvenPanel[]
  readonly bonds: readonly OvenBond[]
  /**
   * The vehicle's own limit for its metal, degC, where it has one (battery vehicles: as their maker says).
   */
  readonly vehicleLimitC?: number
}

const DWELL: Range = { min: 0, max: 24 * 60 }

/** @throws RangeError naming the field at fault; a bond on a panel that is not listed. */
export function requireBakeRequest({
  program,
  panels,
  bonds,
  metalStartC,
  vehicleLimitC,
}: BakeRequest): void {
  for (const field of ['airStartC', 'setPointC', 'metalTargetC', 'coolAirC', 'touchC'] as const) {
    requireInRange(
      `program.${field}`,
      program[field],
      PLAUSIBLE_TEMPERATURE_C,
      'degC',
      'check the bake program',
    )
  }
  requireInRange(
    'program.airToleranceC',
    program.airToleranceC,
    { min: 0, max: 30 },
    'degC',
    'give how far the air may be off',
  )
  requireInRange('program.dwellMinutes', program.dwellMinutes, DWELL, 'minutes', 'see the paint')
  if (program.rampCPerMinute !== undefined) {
    requirePositive(
      'program.rampCPerMinute',
      program.rampCPerMinute,
      'degC/min',
      'leave it out for air that is hot at once',
    )
  }
  requireInRange('metalStartC', metalStartC, PLAUSIBLE_TEMPERATURE_C, 'degC', 'measure the metal')
  if (vehicleLimitC !== undefined)
    requireNotNegative('vehicleLimitC', vehicleLimitC, 'degC', 'as the vehicle maker says')
  if (panels.length === 0)
    throw new RangeError('panels is empty: give at least the slowest and the fastest panel')
  panels.forEach((panel, i) => {
    requirePositive(
      `panels[${i}].tauMinutes`,
      panel.tauMinutes,
      'minutes',
      'see panelTimeConstant or fitTimeConstant',
    )
    if (panel.coolingTauMinutes !== undefined) {
      requirePositive(
        `panels[${i}].coolingTauMinutes`,
        panel.coolingTauMinutes,
        'minutes',
        'leave it out where not known',
      )
    }
  })
  bonds.forEach((bond, i) => {
    if (panels.some((panel) => panel.name === bond.panel)) return
    throw new RangeError(`bonds[${i}].panel is '${bond.panel}', which is not among panels: add that panel`)
  })
}
