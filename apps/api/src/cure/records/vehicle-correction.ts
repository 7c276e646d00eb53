import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { appendToRecord } from './chain.ts'

interface Order {
  readonly id: string
  readonly shopId: string
  readonly organizationId: string
  readonly vehicle: string
  readonly vin: string | null
  readonly plate: string | null
}

const identityOf = ({ vehicle, vin, plate }: Order) => ({ vehicle, vin, plate })

/**
 * What tells the car was edited: the record of each bond on it stays as it was written, and has the correction beside it,
 * as an entry of its own. In the transaction of the edit, with the repair order locked.
 */
export async function recordCorrection(
  tx: Tx,
  actor: Actor,
  before: Order,
  after: Order,
  now: Date,
): Promise<void> {
  const [was, is] = [identityOf(before), identityOf(after)]
  if (was.vehicle === is.vehicle && was.vin === is.vin && was.plate === is.plate) return
  const bonds = await tx.bond.findMany({
    // A bond from before records were chained has none to correct.
    where: { joint: { repairOrderId: before.id }, bondRecordEntries: { some: {} } },
    orderBy: [{ appliedAt: 'asc' }, { id: 'asc' }],
    select: { id: true, shopId: true, organizationId: true },
  })
  for (const bond of bonds) {
    await appendToRecord(tx, bond, now, [
      { kind: 'vehicleCorrected', at: now, facts: { by: actor.name, personId: actor.id, was, is } },
    ])
  }
}
