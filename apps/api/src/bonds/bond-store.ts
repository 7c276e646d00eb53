import type { Tx } from '../database/database.ts'
import { Prisma } from '../generated/prisma/client.ts'
import { withPoints } from '../catalogue/sheets.ts'
import { notFound } from '../http/problem-error.ts'

/** A bond with all that its estimate and its record need. */
const WHOLE_BOND = {
  joint: { include: { product: true, repairOrder: { include: { shop: true } } } },
  cartridge: { include: { lot: true } },
  sheet: { include: { ...withPoints, product: true } },
  bay: true,
  panelReadings: { orderBy: { at: 'asc' } },
  incidents: { include: { disposition: true }, orderBy: [{ at: 'asc' }, { id: 'asc' }] },
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

export function isRunning({ state }: { readonly state: string }): boolean {
  return state === 'applied' || state === 'clamped'
}

interface Attempt {
  readonly state: string
  readonly incidents: readonly {
    readonly kind: string
    readonly disposition: { readonly kind: string } | null
  }[]
}

/** Whether its adhesive is still on the vehicle: not scraped off with the attempt, nor to be redone. */
export function isStillOn({ state, incidents }: Attempt): boolean {
  const isRedone = incidents.some(
    ({ kind, disposition }) => kind === 'earlyRelease' && disposition?.kind === 'redone',
  )
  return state !== 'abandoned' && !isRedone
}

/** As `isStillOn`, asked of the database. */
export const STILL_ON = {
  state: { not: 'abandoned' },
  incidents: { none: { kind: 'earlyRelease', disposition: { kind: 'redone' } } },
} satisfies Prisma.BondWhereInput

/** As `isStillOn`, of a bond `b` in a query. */
export const IS_STILL_ON = Prisma.sql`(b.state <> 'abandoned' and not exists (
  select from incident i join disposition d on d.incident_id = i.id
   where i.bond_id = b.id and i.kind = 'earlyRelease' and d.kind = 'redone'))`

/** Its clamps came off before it was ready, and nobody has disposed of that yet. */
export function isReleasedEarly({ incidents }: Pick<Attempt, 'incidents'>): boolean {
  return incidents.some(({ kind, disposition }) => kind === 'earlyRelease' && !disposition)
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

export function bondsOfRepairOrder(tx: Tx, repairOrderId: string): Promise<BondRow[]> {
  return tx.bond.findMany({
    where: { joint: { repairOrderId } },
    include: WHOLE_BOND,
    orderBy: [{ jointId: 'asc' }, { attempt: 'asc' }],
  })
}

/** Bonds with an incident that nobody has disposed of yet. */
export function bondsWithOpenIncidents(tx: Tx, shops?: { in: string[] }): Promise<BondRow[]> {
  return tx.bond.findMany({
    where: {
      ...(shops ? { shopId: shops } : {}),
      incidents: { some: { disposition: null, kind: { not: 'gateOverridden' } } },
    },
    include: WHOLE_BOND,
    orderBy: [{ appliedAt: 'asc' }, { id: 'asc' }],
  })
}
