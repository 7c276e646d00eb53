import { message } from '@clampclock/messages'
import type { BakeProgram, ProblemReason } from '@clampclock/contracts'
import { bakeWindow, type ForecastPoint, type OvenPanel } from '@clampclock/cure'
import { type BakeReader, programOf, refusalReason } from '../../cure/index.ts'
import { ovenPanels, type JointInOven } from '../bookings/oven-panels.ts'

/** What a bake by its program takes, or why nobody can tell. */
export type PlannedBake =
  | { readonly kind: 'takes'; readonly workMinutes: number; readonly highestMetalC: number }
  | { readonly kind: 'unknown'; readonly reasons: readonly ProblemReason[] }

/** `field`: where the request has the program. */
export type ProgramReader = Pick<BakeReader, 'timeZone' | 'unit'> & { readonly field: string }

/**
 * Of one vehicle. Its bonds are not asked here: whether they may be baked is judged where it is planned and published.
 *
 * @param coldestBayC What the metal starts from, degC; undefined where no bay has a forecast: then it starts from the air
 *   that it cools in.
 * @throws RangeError as `bakeWindow` of packages/cure, for a program that cannot be.
 */
export function plannedBake(
  bakeProgram: BakeProgram,
  joints: readonly JointInOven[],
  coldestBayC: number | undefined,
  reader: ProgramReader,
): PlannedBake {
  const { field } = reader
  const fix = message('plan-problem.byMinutesFix')
  const { panels, reasons } = ovenPanels(joints, { field, fix })
  if (joints.length === 0) {
    reasons.push({
      code: 'no-panel',
      field,
      message: message('plan-problem.vehicleNoPanels'),
      fix: message('plan-problem.addJointsOrMinutesFix'),
    })
  }
  if (reasons.length > 0) return { kind: 'unknown', reasons }
  return bakeOfPanels(bakeProgram, panels, coldestBayC ?? bakeProgram.coolAirC, reader)
}

/**
 * A bake that has a program and has not begun, as it is by now: joints may have been added, or the bays grown colder, since it
 * got its minutes; longer ones that somebody gave it stay. Null for any other operation.
 */
export function presentBake(
  operation: {
    readonly bakeProgram: BakeProgram | null
    readonly startedAt: Date | null
    readonly workMinutes: number | null
  },
  joints: readonly JointInOven[],
  coldestBayC: number | undefined,
  reader: ProgramReader,
): (PlannedBake & { readonly leastMinutes: number }) | null {
  const { bakeProgram, startedAt, workMinutes } = operation
  if (bakeProgram === null || startedAt !== null) return null
  const bake = plannedBake(bakeProgram, joints, coldestBayC, reader)
  if (bake.kind === 'unknown') return { ...bake, leastMinutes: 0 }
  return {
    ...bake,
    leastMinutes: bake.workMinutes,
    workMinutes: Math.max(bake.workMinutes, workMinutes ?? 0),
  }
}

/**
 * Whole minutes of heat-up, dwell and cool-down with the oven's air on its cold side, and the metal at its warmest with the
 * air on its warm side.
 *
 * @throws RangeError as `bakeWindow` of packages/cure.
 */
export function bakeOfPanels(
  bakeProgram: BakeProgram,
  panels: readonly OvenPanel[],
  metalStartC: number,
  { field, ...reader }: ProgramReader,
): PlannedBake {
  const program = programOf(bakeProgram)
  const window = bakeWindow({ program, moveAtMs: 0, metalStartC, panels, bonds: [] })
  if (window.refusals.length > 0) {
    const fields = { program: field, heat: field, moveAt: field }
    return {
      kind: 'unknown',
      reasons: window.refusals.map((each) => refusalReason(each, { ...reader, fields })),
    }
  }
  const workMinutes = Math.max(1, Math.ceil(window.windowMinutes.conservative))
  return { kind: 'takes', workMinutes, highestMetalC: window.peakMetalC }
}

/**
 * How cold metal may be that comes from a bay, degC: a side of the forecasts where and when it is lowest. From which bay a
 * vehicle comes, and when, is only known once it is planned. Undefined where nothing is forecast.
 */
export function coldestC(
  forecasts: readonly ForecastPoint[],
  side: 'lowC' | 'expectedC' = 'lowC',
): number | undefined {
  return forecasts.length === 0 ? undefined : Math.min(...forecasts.map((point) => point[side]))
}
