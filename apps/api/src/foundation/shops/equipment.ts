import type { BodyOf, Dispenser, ResultOf, shopRoutes } from '@clampclock/contracts'
import type { Actor } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import { announce } from '../live/hub.ts'

type StorageLocation = ResultOf<typeof shopRoutes.addStorageLocation>

export async function listDispensers(tx: Tx, shopId: string): Promise<Dispenser[]> {
  return tx.dispenser.findMany({ where: { shopId }, orderBy: { name: 'asc' } })
}

export async function addDispenser(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof shopRoutes.addDispenser>,
): Promise<Dispenser> {
  const organizationId = actor.organization.id
  const dispenser = await tx.dispenser.create({ data: { ...body, organizationId, shopId } })
  // What fits a dispenser decides what counts as stock.
  await announce(tx, { organizationId, shopId, topic: 'stock', subjectId: dispenser.id })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: dispenser.id })
  return dispenser
}

export async function listStorageLocations(tx: Tx, shopId: string): Promise<StorageLocation[]> {
  return tx.storageLocation.findMany({ where: { shopId }, orderBy: { name: 'asc' } })
}

export async function addStorageLocation(
  tx: Tx,
  actor: Actor,
  shopId: string,
  body: BodyOf<typeof shopRoutes.addStorageLocation>,
): Promise<StorageLocation> {
  const organizationId = actor.organization.id
  const location = await tx.storageLocation.create({ data: { ...body, organizationId, shopId } })
  await announce(tx, { organizationId, shopId, topic: 'shops', subjectId: location.id })
  return location
}
