import { message } from '@clampclock/messages'
import { isSame } from '../../foundation/words/words.ts'
import type { BakeProgram, BodyOf, bakeRoutes, OvenWindow, ProblemReason } from '@clampclock/contracts'
import { bondCurve, judgeBake, type BakedBond, type BakeRequest, type OvenBond } from '@clampclock/cure'
import { requireIn, type Actor } from '../../foundation/permissions/actor.ts'
import {
  type BakeReader,
  bayForecast,
  type BondRow,
  bondsOfRepairOrder,
  computed,
  estimateOf,
  ovenWindow,
  PROGRAM_FIELDS,
  programOf,
  refusalReason,
} from '../../cure/index.ts'
import { heldReasons } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { invalidField, notFound } from '../../foundation/problems/problem-error.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { bakedBond, bondsToBake } from './bake.ts'
import { ovenPanels } from './oven-panels.ts'

export interface VehicleBake {
  readonly startsAt: Date
  readonly bakeProgram: BakeProgram
  /** Of the metal when it is moved to the oven; null: as the coldest of its bonds is expected to be then. */
  readonly metalStartC: number | null
  /** Where neither a bond nor its bay tells; left out: the air that it cools in. */
  readonly elseStartC?: number | undefined
}

export async function checkOven(
  tx: Tx,
  actor: Actor,
  repairOrderId: string,
  body: BodyOf<typeof bakeRoutes.checkOven>,
  now: Date,
): Promise<OvenWindow> {
  const order = await tx.repairOrder.findUnique({ where: { id: repairOrderId } })
  if (!order) throw notFound('repair order', repairOrderId)
  requireIn(actor, 'readShop', order.shopId)
  const window = await vehicleBake(tx, repairOrderId, body, now)
  const held = heldReasons(await bondsOfRepairOrder(tx, repairOrderId))
  const isNew = ({ message }: ProblemReason) =>
    !window.refusals.some((known) => isSame(known.message, message))
  const refusals = [...window.refusals, ...held.filter(isNew)]
  return { ...window, mayBake: refusals.length === 0, refusals }
}

/**
 * The oven window of a vehicle: its panels from its joints, its bonds as they will stand when it is moved.
 *
 * @throws {ProblemError} `invalid-request` for a program that cannot be, or a vehicle without joints.
 */
async function vehicleBake(tx: Tx, repairOrderId: string, bake: VehicleBake, now: Date): Promise<OvenWindow> {
  const order = await tx.repairOrder.findUniqueOrThrow({
    where: { id: repairOrderId },
    include: { joints: { include: { product: true }, orderBy: { name: 'asc' } } },
  })
  if (order.joints.length === 0) {
    throw invalidField(
      'body.bakeProgram',
      message('plan-problem.noPanels', { number: order.number }),
      message('plan-problem.addJointsOrMetalFix'),
    )
  }
  const { timeZone, temperatureUnit } = await shopById(tx, order.shopId)
  const fields = {
    program: 'body.bakeProgram',
    heat: 'body.bakeProgram.setPointC',
    moveAt: 'body.startsAt',
  }
  const reader: BakeReader = { timeZone, unit: temperatureUnit, fields }
  const { panels, reasons } = ovenPanels(order.joints, {
    field: fields.program,
    fix: message('plan-problem.logMetalFix'),
  })
  const standing: Standing[] = []
  for (const bond of await bondsToBake(tx, repairOrderId))
    standing.push(await standingAt(tx, bond, bake.startsAt, timeZone, now))
  const isComputed = ({ bond }: Standing) => panels.some(({ name }) => name === bond.panel)
  // How warm a panel gets that one temperature cannot stand for, nobody can say; how far its bond is, one can.
  const { refusals, limits } = judgeBake({
    moveAtMs: bake.startsAt.getTime(),
    metal: [],
    bonds: standing.filter((each) => !isComputed(each)).map(({ baked }) => baked),
    vehicleLimitC: order.ovenLimitC,
  })
  reasons.push(...refusals.map((refusal) => refusalReason(refusal, reader)))
  const metalStartC =
    bake.metalStartC ??
    coldest(standing) ??
    (await bayAirC(tx, repairOrderId, bake.startsAt, timeZone, now)) ??
    bake.elseStartC ??
    bake.bakeProgram.coolAirC
  if (panels.length === 0)
    return nothingComputed(reasons, metalStartC, { ...limits, rated: [...limits.rated] })

  const request: BakeRequest = {
    program: programOf(bake.bakeProgram),
    moveAtMs: bake.startsAt.getTime(),
    metalStartC,
    panels,
    bonds: standing.filter(isComputed).map(({ bond }) => bond),
    ...(order.ovenLimitC === null ? {} : { vehicleLimitC: order.ovenLimitC }),
  }
  const window = computed(bake, PROGRAM_FIELDS, () => ovenWindow(request, reader))
  const all = [...reasons, ...window.refusals]
  const rated = [...window.limits.rated, ...limits.rated]
  return { ...window, mayBake: all.length === 0, refusals: all, limits: { ...window.limits, rated } }
}

interface Standing {
  readonly bond: OvenBond
  readonly baked: BakedBond
  /** Of its panel when the vehicle is moved; null where nobody knows. */
  readonly panelC: number | null
}

/** A bond as it will stand when the vehicle is moved: by its estimate and the forecast of its bay. */
async function standingAt(
  tx: Tx,
  row: BondRow,
  startsAt: Date,
  timeZone: string,
  now: Date,
): Promise<Standing> {
  const { history, estimate, fault } = await estimateOf(tx, row, timeZone, now)
  const last =
    fault === null
      ? bondCurve(history, { milestone: 'fullCure', toMs: startsAt.getTime() }).at(-1)
      : undefined
  const baked = bakedBond(row, estimate)
  const fullCureProgress = last?.progress ?? estimate.fullCure.progress
  return {
    baked,
    bond: { ...baked, sheet: history.sheet, panel: row.joint.name, fullCureProgress },
    panelC: row.releasedAt ? null : (last?.temperatureC.expected ?? null),
  }
}

function coldest(standing: readonly { readonly panelC: number | null }[]): number | undefined {
  const known = standing.flatMap(({ panelC }) => panelC ?? [])
  return known.length === 0 ? undefined : Math.min(...known)
}

/** The air of the bay that the vehicle stands in until then, as forecast for when it is moved. */
async function bayAirC(
  tx: Tx,
  repairOrderId: string,
  startsAt: Date,
  timeZone: string,
  now: Date,
): Promise<number | undefined> {
  const standing = await tx.booking.findFirst({
    where: {
      repairOrderId,
      cancelledAt: null,
      startsAt: { lte: startsAt },
      endsAt: { gt: now },
      resource: { kind: 'bay' },
    },
    orderBy: [{ startsAt: 'desc' }, { id: 'asc' }],
  })
  if (!standing) return undefined
  const forecast = await bayForecast(tx, standing.resourceId, timeZone, now)
  return forecast.findLast(({ atMs }) => atMs <= startsAt.getTime())?.expectedC
}

/** Of a bake that takes the oven from `startsAt` to `endsAt`: all that stands against it, and how hot the metal gets. */
export async function judgeBooked(
  tx: Tx,
  repairOrderId: string,
  { endsAt, ...bake }: VehicleBake & { readonly endsAt: Date },
  now: Date,
): Promise<{ readonly reasons: readonly ProblemReason[]; readonly peakMetalC: number | null }> {
  const window = await vehicleBake(tx, repairOrderId, bake, now)
  const booked = (endsAt.getTime() - bake.startsAt.getTime()) / 60_000
  return {
    reasons: [...window.refusals, ...lengthReasons(booked, window)],
    peakMetalC: window.peakMetalC,
  }
}

/** The oven is taken for heat-up, dwell and cool-down, as long as they take with its air on the cold side. */
function lengthReasons(bookedMinutes: number, { windowMinutes }: OvenWindow): ProblemReason[] {
  const needed = windowMinutes.conservative
  if (needed === null || bookedMinutes >= needed) return []
  return [
    {
      code: 'window-too-short',
      field: 'body.endsAt',
      message: message('plan-problem.bakeTooShort', {
        needed: Math.ceil(needed),
        booked: Math.floor(bookedMinutes),
      }),
      fix: message('plan-problem.bookLongerFix'),
    },
  ]
}

/** Without one panel that can be computed there is nothing to compute: the reasons say why. */
function nothingComputed(
  refusals: ProblemReason[],
  metalStartC: number,
  limits: OvenWindow['limits'],
): OvenWindow {
  const never = { earliest: null, expected: null, conservative: null }
  return {
    mayBake: false,
    heatUpMinutes: never,
    windowMinutes: never,
    metalStartC,
    peakMetalC: null,
    limits,
    panels: [],
    bonds: [],
    refusals,
    cautions: [],
    points: [],
  }
}
