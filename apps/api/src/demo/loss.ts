import { discardCartridge } from '../supply/cartridges/cartridges.ts'
import { hoursFrom, type World } from './world.ts'

const PRODUCT = 'Boojum Impact 180'
const LEFT = 1

/**
 * A wet shelf at the first shop: of one product hardly anything is left, so that something wants ordering. And a cartridge
 * that was kept for a job was dropped: another is kept in its place.
 */
export async function addLoss({ tx, now, partsManager, products, shops }: World): Promise<void> {
  const cartridges = await tx.cartridge.findMany({
    where: {
      shopId: shops[0]!.id,
      lot: { productId: products.find(({ name }) => name === PRODUCT)!.id },
      state: { in: ['sealed', 'opened'] },
      expiresAt: { gt: now },
    },
    orderBy: [{ expiresAt: 'desc' }, { id: 'asc' }],
    select: { id: true },
  })
  for (const { id } of cartridges.slice(LEFT))
    await discardCartridge(
      tx,
      partsManager,
      id,
      { reason: 'A pipe leaked onto the shelf: cartons soaked' },
      hoursFrom(now, -20),
    )
  const kept = await tx.reservation.findFirstOrThrow({
    where: { endedAt: null, cartridge: { shopId: shops[0]!.id, state: 'sealed' } },
    orderBy: { id: 'asc' },
  })
  await discardCartridge(
    tx,
    partsManager,
    kept.cartridgeId,
    { reason: 'Dropped: the piston is bent' },
    hoursFrom(now, -1),
  )
}
