import { DateTime } from 'luxon'
import { discardCartridge, openCartridge } from '../supply/cartridges/cartridges.ts'
import { holdLot } from '../supply/lots/holds.ts'
import { receiveLot } from '../supply/receiving/receive.ts'
import { refreshStorageLife } from '../supply/lots/storage-life.ts'
import { WEEKS } from './temperatures.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

const LOTS = 200
const DAY = 24

/** Two hundred lots in every state: fresh, short-dated, dead on the shelf, opened, opened too long ago, thrown away, on hold. */
export async function addStock(world: World): Promise<void> {
  const { random, products, shops } = world
  for (let i = 0; i < LOTS; i += 1) {
    const shop = shops[Math.floor(i / products.length) % shops.length]!
    const product = productFor(shop, products, i)
    await addLot(
      world,
      shop,
      product,
      `${String.fromCodePoint(65 + random.whole(0, 25))}${random.whole(10_000, 99_999)}`,
      i,
    )
  }
  for (const shop of shops) {
    for (const placeId of shop.placeIds)
      await refreshStorageLife(world.tx, placeId, hoursFrom(world.now, -WEEKS * 7 * DAY - DAY))
  }
  await holdOne(world)
}

async function addLot(
  world: World,
  shop: WorldShop,
  product: World['products'][number],
  lotNumber: string,
  i: number,
): Promise<void> {
  const { tx, now, random, partsManager } = world
  const receivedDaysAgo = random.whole(3, 170)
  // A few are dead, one in twelve dies within the month, the rest last.
  const lifeDays =
    i % 37 === 3 ? -random.whole(1, 40) : i % 12 === 5 ? random.whole(2, 29) : random.whole(40, 420)
  const expiry = DateTime.fromJSDate(hoursFrom(now, lifeDays * DAY), { zone: shop.plan.timeZone })
  const byMonth = i % 3 === 0 && lifeDays > 40
  const receivedAt = hoursFrom(now, -receivedDaysAgo * DAY)
  const { cartridges } = await receiveLot(
    tx,
    partsManager,
    shop.id,
    {
      productId: product.id,
      lotNumber,
      printedExpiry: byMonth ? { month: expiry.toFormat('yyyy-MM') } : { date: expiry.toISODate()! },
      cartridges: 2 + (i % 3),
      locationId: shop.placeIds[i % 4 === 1 ? 1 : 0]!,
      reason: '',
      deliveryNote: null,
      gtin: null,
      cartridgesPerScan: 1,
      serials: [],
    },
    receivedAt,
  )
  const fits = shop.dispensers.some(({ cartridgeForms }) => cartridgeForms.includes(product.form))
  const [first, second] = cartridges
  if (!first || !second || lifeDays <= 0 || !fits) return
  if (i % 5 === 0) await open(world, shop, first.id, openedDaysAgo(i, product.openLifeDays, receivedDaysAgo))
  if (i % 9 === 4) {
    await discardCartridge(
      tx,
      partsManager,
      second.id,
      { reason: 'Nozzle left on, cured in the tip' },
      hoursFrom(now, -random.whole(1, receivedDaysAgo - 1) * DAY),
    )
  }
}

/** What the shop's guns take, but for two lots that somebody ordered all the same. */
function productFor(shop: WorldShop, products: World['products'], i: number): World['products'][number] {
  const fitting = products.filter(({ form }) =>
    shop.dispensers.some(({ cartridgeForms }) => cartridgeForms.includes(form)),
  )
  return i % 100 === 27 ? products[3]! : fitting[i % fitting.length]!
}

/** Most within their open life, a few well past it. */
function openedDaysAgo(i: number, openLifeDays: number, receivedDaysAgo: number): number {
  const tooLong = i % 15 === 0 && openLifeDays + 6 < receivedDaysAgo
  return tooLong ? openLifeDays + 5 : Math.min(Math.max(1, Math.floor(openLifeDays / 4)), receivedDaysAgo - 1)
}

async function open(
  { tx, now }: World,
  shop: WorldShop,
  cartridgeId: string,
  daysAgo: number,
): Promise<void> {
  const at = hoursFrom(now, -daysAgo * DAY)
  await openCartridge(tx, shop.technician, cartridgeId, { openedAt: at, reason: '' }, at)
}

async function holdOne({ tx, now, partsManager, products }: World): Promise<void> {
  const lot = await tx.lot.findFirstOrThrow({
    where: { productId: products[1]!.id, printedExpiry: { gt: hoursFrom(now, 60 * DAY) } },
    orderBy: { lotNumber: 'asc' },
  })
  await holdLot(
    tx,
    partsManager,
    lot.id,
    'Cartridges reported with a cracked piston: wait for the maker',
    hoursFrom(now, -30),
  )
}
