import type { BakeProgram, BodyOf, bakeRoutes, OvenWindow, ProblemReason } from '@clampclock/contracts'
import {
  bondCurve,
  judgeBake,
  type BakedBond,
  type BakeRequest,
  type OvenBond,
  type OvenPanel,
} from '@clampclock/cure'
import { requireIn, type Actor } from '../access/actor.ts'
import type { BondRow } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import { OVEN_AIR_W_PER_M2K, panelConstant, STILL_AIR_W_PER_M2K } from '../bonds/panel.ts'
import { computed } from '../calculations/named-fault.ts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound } from '../http/problem-error.ts'
import { shopById } from '../shops/shops.ts'
import { bayForecast } from '../temperature/bay-temperature.ts'
import { refusalReason, type BakeReader } from './bake-sentences.ts'
import { bakedBond, bondsToBake } from './bake.ts'
import { ovenWindow, programOf } from './oven-window.ts'

/** Of the fields of a program as the package names them: in our requests it lies under `bakeProgram`. */
const NAMES = Object.fromEntries(
  [
    'airStartC',
    'setPointC',
    'rampCPerMinute',
    'airToleranceC',
    'metalTargetC',
    'dwellMinutes',
    'coolAirC',
    'touchC',
  ].map((name) => [`program.${name}`, `bakeProgram.${name}`]),
)

export interface VehicleBake {
  readonly startsAt: Date
  readonly bakeProgram: BakeProgram
  /** Of the metal when it is moved to the oven; null: as the coldest of its bonds is expected to be then. */
  readonly metalStartC: number | null
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
  return vehicleBake(tx, repairOrderId, body, now)
}

/**
 * The oven window of a vehicle: its panels from its joints, its bonds as they will stand when it is moved.
 *
 * @throws {ProblemError} `invalid-request` for a program that cannot be, or a vehicle without joints.
 */
export async function vehicleBake(
  tx: Tx,
  repairOrderId: string,
  bake: VehicleBake,
  now: Date,
): Promise<OvenWindow> {
  const order = await tx.repairOrder.findUniqueOrThrow({
    where: { id: repairOrderId },
    include: { joints: { include: { product: true }, orderBy: { name: 'asc' } } },
  })
  if (order.joints.length === 0) {
    throw invalidField(
      'body.bakeProgram',
      `${order.number} has no joint on record, so its panels are not known`,
      'Add its joints, or book with highestMetalC',
    )
  }
  const { timeZone, temperatureUnit } = await shopById(tx, order.shopId)
  const fields = {
    program: 'body.bakeProgram',
    heat: 'body.bakeProgram.setPointC',
    moveAt: 'body.startsAt',
  }
  const reader: BakeReader = { timeZone, unit: temperatureUnit, fields }
  const { panels, reasons } = panelsOf(order.joints)
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
  const window = computed(bake, NAMES, () => ovenWindow(request, reader))
  const all = [...reasons, ...window.refusals]
  const rated = [...window.limits.rated, ...limits.rated]
  return { ...window, mayBake: all.length === 0, refusals: all, limits: { ...window.limits, rated } }
}

type JointOfVehicle = Parameters<typeof panelConstant>[0] & { readonly name: string }

/** Each joint is a panel of its own: two sheets with the bond line between them. */
function panelsOf(joints: readonly JointOfVehicle[]): { panels: OvenPanel[]; reasons: ProblemReason[] } {
  const panels: OvenPanel[] = []
  const reasons: ProblemReason[] = []
  for (const joint of joints) {
    const oven = panelConstant(joint, OVEN_AIR_W_PER_M2K)
    const still = panelConstant(joint, STILL_AIR_W_PER_M2K)
    if (oven.kind === 'lumped' && still.kind === 'lumped') {
      panels.push({ name: joint.name, tauMinutes: oven.tauMinutes, coolingTauMinutes: still.tauMinutes })
      continue
    }
    reasons.push({
      code: 'panel-not-lumped',
      field: 'body.bakeProgram',
      message: `${joint.name}: too thick or too poor a conductor for one temperature to stand for all of it (Biot number ${oven.biot.toFixed(2)}, the limit is 0.1)`,
      fix: 'Log its metal in the oven, and book with highestMetalC',
    })
  }
  return { panels, reasons }
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
  const { history, estimate } = await estimateOf(tx, row, timeZone, now)
  const last = bondCurve(history, { milestone: 'fullCure', toMs: startsAt.getTime() }).at(-1)
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
