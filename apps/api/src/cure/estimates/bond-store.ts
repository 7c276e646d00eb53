import type { Tx } from '../../foundation/database/database.ts'
import { defineMark, type MarkAsked } from '../../foundation/database/marks.ts'
import type { Prisma } from '../../generated/prisma/client.ts'
import { withApprovedSheets, withPoints } from '../../work/index.ts'
import { notFound } from '../../foundation/problems/problem-error.ts'

/** A bond with all that its estimate and its record need. */
const WHOLE_BOND = {
  joint: { include: { product: true, repairOrder: { include: { shop: true } } } },
  cartridge: { include: { lot: true } },
  // With what counts of the product since: a slower revision speaks of what was made before it.
  sheet: { include: { ...withPoints, product: { include: withApprovedSheets } } },
  bay: true,
  panelReadings: { orderBy: [{ at: 'asc' }, { recordedAt: { sort: 'asc', nulls: 'first' } }] },
  incidents: {
    include: { disposition: true, inspections: { omit: { photo: true }, orderBy: { at: 'asc' } } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  },
  stockMovements: {
    where: { kind: 'used' },
    include: { cartridge: { include: { lot: true } } },
    orderBy: { id: 'asc' },
  },
} satisfies Prisma.BondInclude

export type BondRow = Awaited<ReturnType<typeof bondRow>>

export async function bondRow(tx: Tx, id: string) {
  const row = await tx.bond.findUnique({ where: { id }, include: WHOLE_BOND })
  if (!row) throw notFound('bond', id)
  return row
}

/** As `bondRow`, with the bond locked: what a technician does to it happens one after the other. */
export async function lockedBond(tx: Tx, id: string): Promise<BondRow> {
  await tx.$queryRaw`select 1 from bond where id = ${id}::uuid for no key update`
  return bondRow(tx, id)
}

const MARK = defineMark('scope_id = (select shop_id from bond where id = $1::uuid)')

/** Of the shop that a bond is in: with all that its estimate is made from. */
export function ofBond(id: string): MarkAsked {
  return { read: MARK, values: [id] }
}

const RUNNING = { state: { in: ['applied', 'clamped'] } } satisfies Prisma.BondWhereInput

/** Bonds that still cure towards handling strength, in these shops or in all. */
export function runningBonds(tx: Tx, shops?: { in: string[] }): Promise<BondRow[]> {
  return tx.bond.findMany({
    where: { ...RUNNING, ...(shops ? { shopId: shops } : {}) },
    include: WHOLE_BOND,
    orderBy: [{ appliedAt: 'asc' }, { id: 'asc' }],
  })
}

/** Those of them that a person put on. */
export function runningBondsOf(tx: Tx, personId: string, shops?: { in: string[] }): Promise<BondRow[]> {
  return tx.bond.findMany({
    where: { ...RUNNING, appliedById: personId, ...(shops ? { shopId: shops } : {}) },
    include: WHOLE_BOND,
    orderBy: [{ appliedAt: 'asc' }, { id: 'asc' }],
  })
}

export function bondsOfRepairOrder(tx: Tx, repairOrderId: string): Promise<BondRow[]> {
  return bondsOfRepairOrders(tx, [repairOrderId])
}

export function bondsOfRepairOrders(tx: Tx, ids: readonly string[]): Promise<BondRow[]> {
  return tx.bond.findMany({
    where: { joint: { repairOrderId: { in: [...ids] } } },
    include: WHOLE_BOND,
    orderBy: [{ jointId: 'asc' }, { attempt: 'asc' }],
  })
}
