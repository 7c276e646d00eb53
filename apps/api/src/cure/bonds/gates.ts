import type { BodyOf, bondRoutes, ProblemReason } from '@clampclock/contracts'
import { message, type Param } from '@clampclock/messages'
import { applicationFaults, dewPointC } from '@clampclock/cure'
import { takenMl, wholeMl } from '@clampclock/quantities'
import { NEVER_OVERRIDABLE, usabilityFaults } from '@clampclock/stock'
import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import {
  amountNeededMl,
  APPROVED,
  figuresOf,
  isApproved,
  type JointRow,
  newestFirst,
  sheetOn,
  type WholeSheet,
  withPoints,
} from '../../work/index.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { instrumentOf, type InstrumentRow } from '../../foundation/shops/instruments.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import {
  type CartridgeRow,
  cartridgeRow,
  faultSentence,
  reservedReasons,
  usability,
} from '../../supply/index.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import { applicationReason } from './application-reason.ts'
import { hygrometerReasons, qualifiedFor, thermometerReasons, type Qualified } from './who-and-with-what.ts'

export type Application = BodyOf<typeof bondRoutes.startBond>

export interface Gates {
  readonly reasons: readonly ProblemReason[]
  readonly dewPointC: number
  /** The sheet that counts of the product that really goes on; null: nothing can be computed, so nothing may start. */
  readonly sheet: WholeSheet | null
  /** Where none counts: the newest that is on file, by which what has happened is recorded; null where there is none. */
  readonly proposed: WholeSheet | null
  /** Of the thermometer that took the panel's temperature: its own where it is named, else as the request says. */
  readonly panelAccuracyC: number
  readonly thermometer: InstrumentRow | null
  readonly hygrometer: InstrumentRow | null
  readonly qualification: Qualified['qualification']
  readonly cartridges: readonly { readonly row: CartridgeRow; readonly amountMl: number }[]
}

/**
 * Every gate of rules 1 and 8, all of them every time: whoever stands at the car wants the whole list at once.
 *
 * @throws {ProblemError} `invalid-request` for what is not a matter of judgement: a cartridge, dispenser, bay or
 *   instrument that is not of this shop, one cartridge named twice.
 */
export async function checkGates(
  tx: Tx,
  actor: Actor,
  joint: JointRow,
  application: Application,
  at: Date,
  read = cartridgeRow,
): Promise<Gates> {
  const { timeZone, temperatureUnit } = await shopById(tx, joint.shopId)
  const cartridges = await readCartridges(tx, joint, application, read)
  // Of now there is no doubt: whoever waited for the cartridge has not lost its place by that.
  if (application.appliedAt) requireTimely(cartridges, application.appliedAt, timeZone)
  const first = cartridges[0]!.row
  const { sheet, proposed, reasons: sheetReasons } = await sheetThatCounts(tx, first, at, timeZone)
  const { panel } = application
  const { shopId, safetyClass } = joint
  const thermometer = await instrumentOf(
    tx,
    shopId,
    panel.instrumentId,
    panel.source,
    'body.panel.instrumentId',
  )
  if (application.airReadWith === 'hygrometer' && application.hygrometerId === null)
    throw invalidField('body.airReadWith', message('cure-problem.hygrometerNotNamed'))
  const hygrometer = await instrumentOf(
    tx,
    shopId,
    application.hygrometerId,
    'hygrometer',
    'body.hygrometerId',
  )
  const { qualification, reasons: personReasons } = await qualifiedFor(tx, actor, safetyClass, at, timeZone)
  const panelAccuracyC = thermometer?.accuracyC ?? panel.accuracyC
  const reasons = [
    ...procedureReasons(joint),
    ...personReasons,
    ...productReasons(
      joint,
      cartridges.map(({ row }) => row),
    ),
    ...sheetReasons,
    ...cartridges.flatMap(({ row, amountMl }) => cartridgeReasons(row, amountMl, at)),
    ...(await reservedReasons(tx, joint.id, cartridges)),
    ...(await dispenserReasons(
      tx,
      application.dispenserId,
      cartridges.map(({ row }) => row),
    )),
    ...preparationReasons(application.prepared),
    ...thermometerReasons(safetyClass, thermometer, at, timeZone),
    ...hygrometerReasons(safetyClass, hygrometer, at, timeZone),
    ...(sheet ? applicationReasons(sheet, application, panelAccuracyC, hygrometer, temperatureUnit) : []),
  ]
  if (application.bayId) await requireBay(tx, application.bayId, first.shop_id)
  return {
    reasons,
    dewPointC: dewPointC(application.airTemperatureC, application.relativeHumidityPercent),
    sheet,
    proposed,
    panelAccuracyC,
    thermometer,
    hygrometer,
    qualification,
    cartridges,
  }
}

async function readCartridges(
  tx: Tx,
  joint: JointRow,
  application: Application,
  read: typeof cartridgeRow,
): Promise<Gates['cartridges']> {
  const wanted = [
    { cartridgeId: application.cartridgeId, amountMl: application.amountMl },
    ...application.moreCartridges,
  ]
  if (new Set(wanted.map(({ cartridgeId }) => cartridgeId)).size < wanted.length) {
    throw invalidField('body.moreCartridges', message('gate.twice'), message('gate.twiceFix'))
  }
  const neededMl = toMl(toUl(amountNeededMl(joint)))
  const rows = new Map<string, CartridgeRow>()
  // In one order for everybody, so that two people who reach for the same two cartridges cannot wait for each other.
  for (const { cartridgeId } of wanted.toSorted((a, b) => a.cartridgeId.localeCompare(b.cartridgeId))) {
    const row = await read(tx, cartridgeId)
    if (row.shop_id !== joint.shopId) {
      throw invalidField(
        'body.cartridgeId',
        message('gate.anotherShop', { code: row.code }),
        message('gate.takeOfThisShopFix'),
      )
    }
    rows.set(cartridgeId, row)
  }
  return wanted.map(({ cartridgeId, amountMl }) => {
    const row = rows.get(cartridgeId)!
    // Who writes the need in whole mL takes the need: the rest may be kept for another joint.
    const isNeed = wanted.length === 1 && amountMl === wholeMl(neededMl)
    return { row, amountMl: takenMl(isNeed ? neededMl : amountMl, toMl(row.remaining_ul)) }
  })
}

const WHICH_INSTANT = message('gate.whichInstantFix')

function written(at: Date, zone: string): Param {
  return { instant: at.toISOString(), style: 'full', zone }
}

/** Nobody can have used a cartridge before it was there, or before it was opened. */
function requireTimely(cartridges: Gates['cartridges'], at: Date, timeZone: string): void {
  for (const { row } of cartridges) {
    if (at < row.received_at)
      throw invalidField(
        'body.appliedAt',
        message('gate.beforeReceived', { code: row.code, at: written(row.received_at, timeZone) }),
        WHICH_INSTANT,
      )
    if (row.opened_at && at < row.opened_at)
      throw invalidField(
        'body.appliedAt',
        message('gate.beforeOpened', { code: row.code, at: written(row.opened_at, timeZone) }),
        WHICH_INSTANT,
      )
  }
}

/** Nothing overrides these: without a sheet nothing can be computed, and what one person typed is no sheet yet. */
async function sheetThatCounts(
  tx: Tx,
  { product_id: productId, product_name: name }: CartridgeRow,
  at: Date,
  timeZone: string,
): Promise<Pick<Gates, 'sheet' | 'proposed'> & { reasons: ProblemReason[] }> {
  const sheets = await tx.productSheet.findMany({
    where: { productId, OR: [{ decision: null }, APPROVED] },
    include: withPoints,
    orderBy: newestFirst,
  })
  const sheet = sheetOn(sheets, at, timeZone)
  if (sheet) return { sheet, proposed: null, reasons: [] }
  const overridable = false
  const [newest] = sheets
  if (!newest) {
    return {
      sheet: null,
      proposed: null,
      reasons: [
        {
          code: 'no-data-sheet',
          message: message('gate.noSheet', { product: name }),
          fix: message('gate.noSheetFix'),
          overridable,
        },
      ],
    }
  }
  return { sheet: null, proposed: newest, reasons: [{ ...notYet(sheets, newest, name), overridable }] }
}

function notYet(
  sheets: readonly WholeSheet[],
  newest: WholeSheet,
  name: string,
): Omit<ProblemReason, 'overridable'> {
  const [soonest] = sheets
    .filter(isApproved)
    .flatMap(({ revision, validFrom }) => (validFrom ? [{ revision, validFrom }] : []))
    .toSorted((a, b) => a.validFrom.getTime() - b.validFrom.getTime())
  if (soonest)
    return {
      code: 'sheet-not-valid-yet',
      message: message('gate.sheetNotValidYet', {
        product: name,
        revision: soonest.revision,
        from: { day: isoDate(soonest.validFrom) },
      }),
      fix: message('gate.sheetNotValidYetFix'),
    }
  return {
    code: 'sheet-not-approved',
    message: message('gate.sheetNotApproved', { product: name, revision: newest.revision }),
    fix: message('gate.sheetNotApprovedFix'),
  }
}

export async function requireBay(tx: Tx, bayId: string, shopId: string): Promise<{ readonly name: string }> {
  const bay = await tx.resource.findFirst({ where: { id: bayId, shopId, kind: 'bay' } })
  if (!bay) throw invalidField('body.bayId', message('gate.noBay'))
  return bay
}

function procedureReasons(joint: JointRow): ProblemReason[] {
  if (joint.procedureDocument) return []
  return [
    {
      code: 'no-procedure',
      message: message('gate.noProcedure', { joint: joint.name }),
      fix: message('gate.noProcedureFix'),
      overridable: true,
    },
  ]
}

function productReasons(joint: JointRow, cartridges: readonly CartridgeRow[]): ProblemReason[] {
  const reasons: ProblemReason[] = []
  const planned = joint.product.name
  if (cartridges[0]!.product_id !== joint.productId) {
    reasons.push({
      code: 'other-product',
      field: 'body.cartridgeId',
      message: message('gate.otherProduct', { held: cartridges[0]!.product_name, planned }),
      fix: message('gate.otherProductFix', { planned }),
      overridable: true,
    })
  }
  if (cartridges.some((row) => row.product_id !== cartridges[0]!.product_id)) {
    reasons.push({
      code: 'mixed-products',
      field: 'body.moreCartridges',
      message: message('gate.mixedProducts'),
      fix: message('gate.mixedProductsFix'),
      overridable: false,
    })
  }
  return reasons
}

/** An expired, held or used-up cartridge, and one that does not hold enough: nothing overrides these. */
function cartridgeReasons(row: CartridgeRow, neededMl: number, at: Date): ProblemReason[] {
  const codes = {
    usedUp: 'used-up',
    away: 'not-there',
    expired: 'expired',
    onHold: 'on-hold',
    quarantined: 'quarantined',
    noDispenserFits: 'no-dispenser',
    tooLittle: 'too-little',
  } as const
  return usabilityFaults({ ...usability(row), neededMl, atMs: at.getTime() })
    .filter(({ kind }) => kind !== 'noDispenserFits') // The dispenser that is named is judged by itself.
    .map((fault) => ({
      code: codes[fault.kind],
      field: 'body.cartridgeId',
      message: faultSentence(fault, row),
      fix: message(fault.kind === 'tooLittle' ? 'gate.furtherFix' : 'gate.anotherFix'),
      overridable: !NEVER_OVERRIDABLE.has(fault.kind) && fault.kind !== 'tooLittle',
    }))
}

async function dispenserReasons(
  tx: Tx,
  dispenserId: string,
  cartridges: readonly CartridgeRow[],
): Promise<ProblemReason[]> {
  const shopId = cartridges[0]!.shop_id
  const dispenser = await tx.dispenser.findFirst({ where: { id: dispenserId, shopId } })
  if (!dispenser) throw invalidField('body.dispenserId', message('gate.noDispenser'))
  const misfit = cartridges.find((row) => !dispenser.cartridgeForms.includes(row.cartridge_form))
  if (!misfit) return []
  return [
    {
      code: 'dispenser-does-not-fit',
      field: 'body.dispenserId',
      message: message('gate.dispenserDoesNotFit', {
        dispenser: dispenser.name,
        forms: { list: dispenser.cartridgeForms, join: 'plain' },
        form: misfit.cartridge_form,
      }),
      fix: message('gate.dispenserDoesNotFitFix'),
      overridable: true,
    },
  ]
}

function preparationReasons(prepared: Application['prepared']): ProblemReason[] {
  const steps = [
    {
      done: prepared.surfaces,
      code: 'surfaces-not-prepared',
      field: 'body.prepared.surfaces',
      says: message('gate.surfaces'),
    },
    {
      done: prepared.dryFit,
      code: 'no-dry-fit',
      field: 'body.prepared.dryFit',
      says: message('gate.dryFit'),
    },
    {
      done: prepared.skimCoat,
      code: 'no-skim-coat',
      field: 'body.prepared.skimCoat',
      says: message('gate.skimCoat'),
    },
  ]
  return steps
    .filter(({ done }) => !done)
    .map(({ code, field, says }) => ({
      code,
      field,
      message: says,
      fix: message('gate.preparedFix'),
      overridable: true,
    }))
}

function applicationReasons(
  sheet: WholeSheet,
  { panel, airTemperatureC, relativeHumidityPercent }: Application,
  panelAccuracyC: number,
  hygrometer: InstrumentRow | null,
  unit: 'C' | 'F',
): ProblemReason[] {
  // The air may be as damp as the hygrometer's accuracy leaves room for.
  const dampest = Math.min(100, relativeHumidityPercent + (hygrometer?.accuracyPercent ?? 0))
  return applicationFaults({
    sheet: figuresOf(sheet),
    panelC: panel.temperatureC,
    panelAccuracyC,
    dewPointC: dewPointC(airTemperatureC, dampest),
  }).map((fault) => applicationReason(fault, unit))
}
