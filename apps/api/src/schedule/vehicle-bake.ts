import type { BakeProgram, BodyOf, bakeRoutes, OvenWindow, ProblemReason } from '@clampclock/contracts'
import {
  bondCurve,
  type BakeRequest,
  type OvenBond,
  type OvenPanel,
  type ReadyInstant,
  type ThreeLines,
} from '@clampclock/cure'
import { requireIn, type Actor } from '../access/actor.ts'
import { bondsOfRepairOrder, type BondRow } from '../bonds/bond-store.ts'
import { estimateOf } from '../bonds/history.ts'
import { OVEN_AIR_W_PER_M2K, panelConstant, STILL_AIR_W_PER_M2K } from '../bonds/panel.ts'
import { computed } from '../calculations/named-fault.ts'
import { figuresOf } from '../catalogue/sheets.ts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound } from '../http/problem-error.ts'
import { shopById } from '../shops/shops.ts'
import { earlyReleaseReasons } from './bake.ts'
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
  const { timeZone } = await shopById(tx, order.shopId)
  const { panels, reasons } = panelsOf(order.joints)
  const bonds = (await bondsOfRepairOrder(tx, repairOrderId)).filter(({ state }) => state !== 'abandoned')
  reasons.push(...bonds.flatMap(earlyReleaseReasons))
  const known = bonds.filter(({ joint }) => panels.some(({ name }) => name === joint.name))
  const standing: { readonly bond: OvenBond; readonly panelC: number | null }[] = []
  for (const bond of known) standing.push(await standingAt(tx, bond, bake.startsAt, timeZone, now))
  // Without one panel that can be computed there is nothing to compute: the reasons say why.
  if (panels.length === 0) return nothingComputed(reasons)

  const request: BakeRequest = {
    program: programOf(bake.bakeProgram),
    moveAtMs: bake.startsAt.getTime(),
    metalStartC: bake.metalStartC ?? coldest(standing) ?? bake.bakeProgram.coolAirC,
    panels,
    bonds: standing.map(({ bond }) => bond),
    ...(order.ovenLimitC === null ? {} : { vehicleLimitC: order.ovenLimitC }),
  }
  const fields = { program: 'body.bakeProgram', moveAt: 'body.startsAt' }
  const window = computed(bake, NAMES, () => ovenWindow(request, fields, timeZone))
  const refusals = [...reasons, ...window.refusals]
  return { ...window, mayBake: refusals.length === 0, refusals }
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

/** A bond as it will stand when the vehicle is moved: by its estimate and the forecast of its bay. */
async function standingAt(
  tx: Tx,
  bond: BondRow,
  startsAt: Date,
  timeZone: string,
  now: Date,
): Promise<{ bond: OvenBond; panelC: number | null }> {
  const { history, estimate } = await estimateOf(tx, bond, timeZone, now)
  const last = bondCurve(history, { milestone: 'fullCure', toMs: startsAt.getTime() }).at(-1)
  const fullCureProgress: ThreeLines<number> = last?.progress ?? estimate.fullCure.progress
  // Its clamps are off: past handling strength, or it is told by `earlyReleaseReasons`.
  const handlingReadyAt: ReadyInstant = bond.releasedAt
    ? { kind: 'at', atMs: bond.releasedAt.getTime() }
    : estimate.handlingStrength.readyAt.conservative
  return {
    bond: {
      joint: bond.joint.name,
      product: bond.sheet.product.name,
      sheet: figuresOf(bond.sheet),
      panel: bond.joint.name,
      handlingReadyAt,
      fullCureProgress,
    },
    panelC: bond.releasedAt ? null : (last?.temperatureC.expected ?? null),
  }
}

function coldest(standing: readonly { readonly panelC: number | null }[]): number | undefined {
  const known = standing.flatMap(({ panelC }) => panelC ?? [])
  return known.length === 0 ? undefined : Math.min(...known)
}

function nothingComputed(refusals: ProblemReason[]): OvenWindow {
  const never = { earliest: null, expected: null, conservative: null }
  return {
    mayBake: false,
    heatUpMinutes: never,
    windowMinutes: never,
    peakMetalC: null,
    panels: [],
    bonds: [],
    refusals,
    cautions: [],
    points: [],
  }
}
