import { withPoints } from '../../work/index.ts'
import type { Prisma } from '../../generated/prisma/client.ts'

/** A bond with every row that its record tells of, as the tables hold them now. */
export const TOLD = {
  joint: {
    include: {
      repairOrder: true,
      product: { select: { name: true } },
      attachments: { where: { bondId: null }, omit: { content: true } },
    },
  },
  attachments: { omit: { content: true } },
  sheet: { include: withPoints },
  panelReadings: true,
  incidents: { include: { disposition: true, inspections: { omit: { photo: true } } } },
  stockMovements: { where: { kind: 'used' }, include: { cartridge: { include: { lot: true } } } },
  bondRecordEntries: { orderBy: { sequence: 'asc' } },
} satisfies Prisma.BondInclude

export type ToldBond = Prisma.BondGetPayload<{ include: typeof TOLD }>

/** Every row that some entry must tell of, by the key that comparers use. */
export function rowsToTell(bond: ToldBond): readonly string[] {
  return [
    'bond.applied_at',
    ...(bond.bayFrom ? ['bond.bay_from'] : []),
    ...(bond.slidAt ? ['bond.slid_at'] : []),
    ...(bond.clampedAt ? ['bond.clamped_at'] : []),
    ...(bond.releasedAt ? ['bond.released_at'] : []),
    ...(bond.abandonedAt ? ['bond.abandoned_at'] : []),
    ...bond.panelReadings.flatMap(({ at, temperatureC, quality }) => [
      readingKey(at, temperatureC),
      ...(quality === 'withdrawn' || quality === 'replaced' ? [takenBackKey(at, temperatureC)] : []),
    ]),
    ...bond.incidents.flatMap(({ id, disposition, inspections }) => [
      incidentKey(id),
      ...inspections.map(({ at }) => inspectionKey(id, at)),
      ...(disposition ? [dispositionKey(id)] : []),
    ]),
    ...attachmentsOf(bond).flatMap(({ id, withdrawnAt }) => [
      attachmentKey(id),
      ...(withdrawnAt ? [withdrawalKey(id)] : []),
    ]),
    ...bond.stockMovements.map(({ cartridge }) => movementKey(cartridge?.code ?? '')),
  ]
}

/** Of this attempt, and of the joint as such. */
export const attachmentsOf = ({ attachments, joint }: ToldBond) => [...attachments, ...joint.attachments]

/** Two may be of one instant: the one that was replaced, and the one that replaces it. */
export const readingKey = (at: Date, temperatureC: number) =>
  `panel_reading of ${at.toISOString()}, ${temperatureC} degC`
export const takenBackKey = (at: Date, temperatureC: number) => `${readingKey(at, temperatureC)}, taken back`
export const incidentKey = (id: string) => `incident ${id}`
export const dispositionKey = (id: string) => `disposition of incident ${id}`
export const inspectionKey = (incidentId: string, at: Date) =>
  `inspection of incident ${incidentId} at ${at.toISOString()}`
export const movementKey = (code: string) => `stock_movement of cartridge ${code}`
export const attachmentKey = (id: string) => `attachment ${id}`
export const withdrawalKey = (id: string) => `withdrawal of attachment ${id}`
