import { nameOf } from '../../foundation/words/kept.ts'
import { message, type Told } from '@clampclock/messages'
import { param, sentences } from '../../foundation/words/params.ts'
import type {
  BakeProgram,
  BodyOf,
  Operation,
  operationChangeRoutes,
  ProblemReason,
  TemplateStep,
} from '@clampclock/contracts'
import type { ForecastPoint, OvenPanel } from '@clampclock/cure'
import { bayForecast, computed, PROGRAM_FIELDS, storedProgram } from '../../cure/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, ProblemError } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bakeOfPanels, coldestC, plannedBake, presentBake } from './planned-bake.ts'

/** A panel about as light as thin sheet: what does not do for it does for none. */
const LIGHTEST: OvenPanel = { name: 'The metal', tauMinutes: 1 }

/**
 * Refuses a template with a program that no vehicle could be baked by.
 *
 * @throws {ProblemError} `invalid-request` naming the field of each step at fault.
 */
export async function requirePrograms(tx: Tx, shopId: string, steps: readonly TemplateStep[]): Promise<void> {
  const { timeZone, temperatureUnit: unit } = await shopById(tx, shopId)
  const reasons = steps.flatMap(({ name, bakeProgram }, i) => {
    if (bakeProgram === null) return []
    const within = `steps.${i}.`
    const reader = { timeZone, unit, field: `body.${within}bakeProgram` }
    const ofPanel = () => bakeOfPanels(bakeProgram, [LIGHTEST], bakeProgram.coolAirC, reader)
    const bake = computed({ bakeProgram }, PROGRAM_FIELDS, ofPanel, within)
    return bake.kind === 'takes' ? [] : named(name, bake.reasons)
  })
  if (reasons.length > 0) throw refused(reasons)
}

interface Vehicle {
  readonly shopId: string
  readonly repairOrderId: string
}

/** What is to be baked by a program; `field`: what of the request asks for it. */
interface Asked {
  readonly name: Told
  readonly bakeProgram: BakeProgram
  readonly field: string
}

/**
 * What a bake takes on a vehicle as its joints and the forecasts of the bays are now.
 *
 * @throws {ProblemError} `invalid-request` naming the step, what is wrong and the fix.
 */
export async function bakeOfVehicle(
  tx: Tx,
  { shopId, repairOrderId }: Vehicle,
  { name, bakeProgram, field }: Asked,
  now: Date,
): Promise<{ readonly workMinutes: number; readonly highestMetalC: number }> {
  const { timeZone, temperatureUnit: unit } = await shopById(tx, shopId)
  const joints = await jointsOf(tx, repairOrderId)
  const forecasts = await bayForecasts(tx, shopId, timeZone, now)
  const bake = computed({ bakeProgram }, PROGRAM_FIELDS, () =>
    plannedBake(bakeProgram, joints, coldestC(forecasts), { timeZone, unit, field }),
  )
  if (bake.kind === 'unknown')
    throw refused(named(name, bake.reasons).map((reason) => ({ ...reason, field })))
  return { workMinutes: bake.workMinutes, highestMetalC: bake.highestMetalC }
}

/**
 * The bakes of one vehicle by their programs as the next plan would have them. One that nobody can work out any more keeps
 * what it was given: the plan says why.
 */
export async function bakesAsNow(tx: Tx, items: readonly Operation[], now: Date): Promise<Operation[]> {
  const [bake] = items.filter(({ bakeProgram, hasBegun }) => bakeProgram !== null && !hasBegun)
  if (!bake) return [...items]
  const { shopId, repairOrderId } = bake
  const { timeZone, temperatureUnit: unit } = await shopById(tx, shopId)
  const joints = await jointsOf(tx, repairOrderId)
  const coldest = coldestC(await bayForecasts(tx, shopId, timeZone, now))
  return items.map((item) => {
    const present = presentBake(item, joints, coldest, { timeZone, unit, field: 'bakeProgram' })
    if (present?.kind !== 'takes') return item
    return { ...item, workMinutes: present.workMinutes, highestMetalC: present.highestMetalC }
  })
}

function jointsOf(tx: Tx, repairOrderId: string) {
  return tx.joint.findMany({
    where: { repairOrderId },
    include: { product: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
}

/** The air to come of all bays in use. */
export async function bayForecasts(
  tx: Tx,
  shopId: string,
  timeZone: string,
  now: Date,
): Promise<readonly ForecastPoint[]> {
  const forecasts: ForecastPoint[] = []
  for (const { id } of await tx.resource.findMany({ where: { shopId, kind: 'bay', active: true } }))
    forecasts.push(...(await bayForecast(tx, id, timeZone, now)))
  return forecasts
}

type Changes = BodyOf<typeof operationChangeRoutes.editOperation>

/**
 * What follows for a bake by its program from a change of it: at least the minutes that it takes, and the metal as hot as it
 * gets. Nothing for one by minutes, and for changes that have to do with neither.
 *
 * @throws {ProblemError} `invalid-request` naming the field.
 */
export async function bakeChanges(
  tx: Tx,
  row: Vehicle & {
    readonly name: string
    readonly nameSaid: unknown
    readonly bakeProgram: unknown
  },
  changes: Changes,
  now: Date,
): Promise<{ readonly workMinutes?: number; readonly highestMetalC?: number }> {
  const { name = nameOf(row), bakeProgram = storedProgram(row.bakeProgram) } = changes
  if (bakeProgram === null) return {}
  if (changes.highestMetalC !== undefined)
    throw invalidField(
      'body.highestMetalC',
      message('plan-problem.followsProgram'),
      message('plan-problem.leaveOutOrNullFix'),
    )
  if (changes.workMinutes === undefined && changes.bakeProgram === undefined) return {}
  const asked = { name, bakeProgram, field: 'body.bakeProgram' }
  const { workMinutes: least, highestMetalC } = await bakeOfVehicle(tx, row, asked, now)
  const { workMinutes = least } = changes
  if (workMinutes < least)
    throw invalidField(
      'body.workMinutes',
      message('plan-problem.programTakes', { minutes: least }),
      message('plan-problem.noFewerFix'),
    )
  return { workMinutes, highestMetalC }
}

function named(name: Told, reasons: readonly ProblemReason[]): ProblemReason[] {
  return reasons.map((reason) => ({
    ...reason,
    message: message('reason.named', { name: param(name), what: param(reason.message) }),
  }))
}

function refused(reasons: readonly ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', sentences(reasons.map((each) => each.message)), reasons)
}
