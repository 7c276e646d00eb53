import { message } from '@clampclock/messages'
import { addSupplier, addSupply } from '../supply/replenishment/suppliers.ts'
import { addOrder, placeOrder } from '../supply/replenishment/orders.ts'
import { setLane } from '../supply/replenishment/policy.ts'
import { post, type Movement } from '../supply/cartridges/ledger.ts'
import { receiveLot } from '../supply/receiving/receive.ts'
import { toUl } from '../foundation/database/volumes.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

const DAY = 24
const SUPPLIERS = [
  {
    name: 'Tumtum Tree Supply',
    email: 'orders@tumtum.example',
    leadDays: 4,
    leadDeviationDays: 1.5,
    orderCostCents: 1200,
  },
  {
    name: 'Wabe & Daughters',
    email: 'desk@wabe.example',
    leadDays: 9,
    leadDeviationDays: 3,
    orderCostCents: 2500,
  },
] as const
const PRICES_CENTS = [4850, 6200, 3900, 7400, 5600, 8100, 4400, 6950] as const

/** Days since the last job of a product, in turn: some are used every few days, some once a month. */
const RHYTHMS = [
  [1, 1, 2, 1, 1],
  [3, 2, 5, 3],
  [8, 13, 6],
  [30, 41, 24],
] as const

/** A quarter of use, the suppliers, the ways between the shops, and an order under way. */
export async function addReplenishment(world: World): Promise<void> {
  const { tx, owner, shops, products } = world
  const supplierIds: string[] = []
  for (const supplier of SUPPLIERS) supplierIds.push((await addSupplier(tx, owner, supplier)).id)
  for (const [i, { id }] of products.entries())
    await addSupply(tx, owner, id, {
      supplierId: supplierIds[i % 2]!,
      unitPriceCents: PRICES_CENTS[i % PRICES_CENTS.length]!,
      boxOf: i % 3 === 0 ? 6 : 1,
      freshDays: 270,
    })
  for (const from of shops)
    for (const to of shops) {
      // The far one is reached by carrier, the others by the chain's own van.
      const isFar = from === shops[3] || to === shops[3]
      const way = isFar ? { days: 4, tripCents: 4800 } : { days: 1, tripCents: 1900 }
      if (from !== to) await setLane(tx, owner, { fromShopId: from.id, toShopId: to.id }, way)
    }
  for (const [s, shop] of shops.entries()) {
    const fitting = products.filter(({ form }) =>
      shop.dispensers.some(({ cartridgeForms }) => cartridgeForms.includes(form)),
    )
    for (const [p, product] of fitting.entries())
      await addPastUse(world, shop, product.id, RHYTHMS[(s + p) % RHYTHMS.length]!, `U${s}${p}`)
  }
  await orderSome(world, supplierIds[0]!)
}

/** A lot that came a quarter ago and has been used up since, job by job, before the clock of each joint was kept. */
async function addPastUse(
  world: World,
  shop: WorldShop,
  productId: string,
  rhythm: readonly number[],
  lotNumber: string,
): Promise<void> {
  const { tx, now, random, partsManager } = world
  const { cartridgeUl } = await tx.product.findUniqueOrThrow({ where: { id: productId } })
  const jobs: { daysAgo: number; amountUl: number }[] = []
  for (let daysAgo = 84, i = 0; daysAgo > 1; i += 1) {
    jobs.push({ daysAgo, amountUl: Math.min(toUl(random.whole(40, 130)), cartridgeUl) })
    daysAgo -= rhythm[i % rhythm.length]! + random.whole(0, 1)
  }
  const usedUl = jobs.reduce((sum, { amountUl }) => sum + amountUl, 0)
  const receivedAt = hoursFrom(now, -90 * DAY)
  const { cartridges, lot } = await receiveLot(
    tx,
    partsManager,
    shop.id,
    {
      productId,
      lotNumber,
      printedExpiry: {
        date: hoursFrom(now, 90 * DAY)
          .toISOString()
          .slice(0, 10),
      },
      cartridges: Math.ceil(usedUl / cartridgeUl),
      locationId: shop.placeIds[0]!,
      reason: '',
      deliveryNote: null,
      gtin: null,
      cartridgesPerScan: 1,
      serials: [],
    },
    receivedAt,
  )
  const movements: Movement[] = []
  const spent: string[] = []
  let piece = 0
  let leftUl = 0
  for (const { daysAgo, amountUl } of jobs) {
    const at = hoursFrom(now, -daysAgo * DAY)
    for (let needUl = amountUl; needUl > 0;) {
      const scope = { shopId: shop.id, lotId: lot.id, cartridgeId: cartridges[piece]!.id, at }
      if (leftUl === 0) {
        movements.push({
          ...scope,
          kind: 'opened',
          sealedChange: -1,
          openedChange: 1,
          volumeChangeUl: 0,
          reason: message('stock-reason.openedForJob'),
        })
        leftUl = cartridgeUl
      }
      const takenUl = Math.min(needUl, leftUl)
      movements.push({
        ...scope,
        kind: 'used',
        sealedChange: 0,
        openedChange: 0,
        volumeChangeUl: -takenUl,
        reason: 'Written in from the job card',
      })
      needUl -= takenUl
      leftUl -= takenUl
      if (leftUl > 0) continue
      movements.push({
        ...scope,
        kind: 'emptied',
        sealedChange: 0,
        openedChange: -1,
        volumeChangeUl: 0,
        reason: message('stock-reason.usedUp'),
      })
      spent.push(cartridges[piece]!.id)
      piece += 1
    }
  }
  // What is left of the last one has dried up.
  const last = leftUl > 0 ? cartridges[piece] : undefined
  if (last) {
    const at = hoursFrom(now, -DAY)
    const scope = { shopId: shop.id, lotId: lot.id, cartridgeId: last.id, at }
    movements.push({
      ...scope,
      kind: 'discarded',
      sealedChange: 0,
      openedChange: -1,
      volumeChangeUl: -leftUl,
      reason: 'Cured in the nozzle',
    })
  }
  await post(tx, shop.technician, now, movements)
  await tx.cartridge.updateMany({
    where: { id: { in: spent } },
    data: { state: 'empty', openedAt: receivedAt },
  })
  if (last)
    await tx.cartridge.update({ where: { id: last.id }, data: { state: 'discarded', openedAt: receivedAt } })
}

/** One order is out with the first shop, one waits to be sent. */
async function orderSome(world: World, supplierId: string): Promise<void> {
  const { tx, now, partsManager, shops, products } = world
  const shop = shops[0]!
  const line = (i: number, cartridges: number) => ({ productId: products[i]!.id, cartridges })
  const placed = hoursFrom(now, -2 * DAY)
  const order = await addOrder(
    tx,
    partsManager,
    shop.id,
    { supplierId, note: '', lines: [line(0, 6), line(2, 4)] },
    placed,
  )
  await placeOrder(tx, partsManager, order.id, placed)
  await addOrder(
    tx,
    partsManager,
    shops[1]!.id,
    { supplierId, note: 'Ask for one lot', lines: [line(4, 3)] },
    now,
  )
}
