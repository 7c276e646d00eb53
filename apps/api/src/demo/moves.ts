import { checkDigit } from '@clampclock/stock'
import { addGtin } from '../work/catalogue/gtins.ts'
import { reserveForPlan } from '../supply/reservations/reservations.ts'
import { addEntry, finishCount, startCount } from '../supply/counts/counts.ts'
import { arriveShipment, loseShipment, sendShipment } from '../supply/shipments/shipments.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

const DAY = 24
/** How far ahead cartridges are kept for joints that are booked. */
const KEPT_DAYS = 7

/** What the cartons say, a box that has come, one on its way, a count, and cartridges kept for the joints of the week. */
export async function addMoves(world: World): Promise<void> {
  const { tx, now, partsManager, shops } = world
  const [harbour, mill, prairie, mesa] = shops as [WorldShop, WorldShop, WorldShop, WorldShop]
  for (const [i, { id }] of world.products.entries())
    await addGtin(tx, partsManager, id, { gtin: gtinOf(i), cartridges: 1 }, hoursFrom(now, -100 * DAY))

  const come = await send(world, mill, prairie, 3, 6 * DAY, 'Prairie Cross had a roof and no cartridge')
  const [lost, ...rest] = come.lines.map(({ cartridgeId }) => cartridgeId)
  const arrived = { cartridgeIds: rest, locationId: prairie.placeIds[0]!, reason: '' }
  await arriveShipment(tx, partsManager, come.id, arrived, hoursFrom(now, -4 * DAY))
  const loss = { cartridgeIds: [lost!], reason: 'Not in the box: the tape was cut open' }
  await loseShipment(tx, partsManager, come.id, loss, hoursFrom(now, -4 * DAY + 1))
  await countShelf(world, mill)
  await send(world, harbour, mesa, 2, 20, 'High Mesa runs out before these expire here')

  for (const { id } of shops) await reserveForPlan(tx, partsManager, id, KEPT_DAYS, now)
}

/** Of the numbers that GS1 leaves for use inside a company (prefixes 20 to 29): no product on sale has one. */
function gtinOf(i: number): string {
  const body = `02099000${String(i + 1).padStart(5, '0')}`
  return `${body}${checkDigit(body)}`
}

async function send(
  { tx, now, partsManager, products }: World,
  from: WorldShop,
  to: WorldShop,
  pieces: number,
  hoursAgo: number,
  reason: string,
) {
  const taken = to.dispensers.flatMap(({ cartridgeForms }) => cartridgeForms)
  const cartridges = await tx.cartridge.findMany({
    where: {
      shopId: from.id,
      state: 'sealed',
      receivedAt: { lt: hoursFrom(now, -hoursAgo - DAY) },
      expiresAt: { gt: hoursFrom(now, 40 * DAY) },
      lot: {
        holdReason: null,
        productId: { in: products.filter(({ form }) => taken.includes(form)).map(({ id }) => id) },
      },
    },
    orderBy: [{ expiresAt: 'asc' }, { id: 'asc' }],
    take: pieces,
  })
  const body = {
    toShopId: to.id,
    cartridgeIds: cartridges.map(({ id }) => id),
    expectedAt: hoursFrom(now, 2 * DAY - hoursAgo),
    heldToo: false,
    reason,
  }
  return sendShipment(tx, partsManager, from.id, body, hoursFrom(now, -hoursAgo))
}

/** A shelf that was counted this morning, and one cartridge of it was not there. */
async function countShelf(
  { tx, now }: World,
  { id: shopId, placeIds, technician }: WorldShop,
): Promise<void> {
  const locationId = placeIds[1]!
  const there = await tx.cartridge.findMany({
    where: { shopId, locationId, state: { in: ['sealed', 'opened'] } },
    orderBy: { code: 'asc' },
    select: { id: true },
  })
  const { id } = await startCount(tx, technician, shopId, locationId, hoursFrom(now, -3))
  for (const each of there.slice(1)) await addEntry(tx, technician, id, each.id, hoursFrom(now, -2.8))
  await finishCount(tx, technician, id, hoursFrom(now, -2.6))
}
