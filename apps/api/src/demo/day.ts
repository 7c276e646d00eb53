import {
  abandonAt,
  addJob,
  bondOn,
  book,
  clampAt,
  closeAt,
  disposeAt,
  measureAt,
  releaseAt,
  slideLateAt,
  type DemoJob,
} from './jobs.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

/** A few weeks' work behind, a day's work under way, a few days' bookings ahead; something of everything that can go wrong. */
export async function addWork(world: World): Promise<void> {
  const [harbour, mill, prairie, mesa] = world.shops as [WorldShop, WorldShop, WorldShop, WorldShop]
  for (const shop of world.shops) await pastWork(world, shop)

  // Harbour Lane: one curing, one whose joint is still open, one ready to be moved.
  const curing = await standing(world, harbour, 'Snark Panel 90', 0, 3)
  await clampAt(world, harbour, await bondOn(world, harbour, curing, { bay: 0, hoursAgo: 1.5 }), 0.6)
  const open = await standing(world, harbour, 'Boojum Tough 120', 1, 1)
  await bondOn(world, harbour, open, { bay: 1, hoursAgo: 0.3 })
  const ready = await standing(world, harbour, 'Snark Alloy 50', 2, 14)
  const overnight = await bondOn(world, harbour, ready, { bay: 2, hoursAgo: 13 })
  await clampAt(world, harbour, overnight, 12.7)
  await measureAt(world, harbour, overnight, 1.2)
  await ahead(world, harbour, [8, 26, 52])

  // Mill Yard: the next vehicle comes before the cure is through; another was pulled early; a third is planned elsewhere too soon.
  const clash = await addJob(world, mill, 'Boojum Structural 60', 8, 40, 1)
  await book(world, mill.bays[0]!.id, clash, -6, 2)
  const waiting = await addJob(world, mill, 'Snark Panel 90', 4, 60, 0)
  await book(world, mill.bays[0]!.id, waiting, 2, 9)
  await clampAt(world, mill, await bondOn(world, mill, clash, { bay: 0, hoursAgo: 2 }), 1.6)
  const early = await standing(world, mill, 'Snark Panel 90', 1, 30)
  const pulled = await bondOn(world, mill, early, { bay: 1, hoursAgo: 28 })
  await clampAt(world, mill, pulled, 27.6)
  await releaseAt(
    world,
    mill,
    pulled,
    26.2,
    'Rolled out to let another car in before anybody had looked at the clock',
  )
  const rushed = await addJob(world, mill, 'Boojum Tough 120', 10, 30, 3)
  await book(world, mill.bays[2]!.id, rushed, -4, 5)
  await book(world, mill.bays[1]!.id, rushed, 5, 11)
  await clampAt(world, mill, await bondOn(world, mill, rushed, { bay: 2, hoursAgo: 3 }), 2.4)
  await ahead(world, mill, [30, 54])

  // Prairie Cross: clamped too late and pushed into place after that, and a gate that somebody took responsibility for.
  const late = await standing(world, prairie, 'Bandersnatch Seam 15', 0, 5)
  const pushed = await bondOn(world, prairie, late, { bay: 0, hoursAgo: 3 })
  await clampAt(world, prairie, pushed, 1.5)
  await slideLateAt(world, prairie, pushed, 1.4, 'Flange stood proud at the rear: pushed in under the clamps')
  const overridden = await standing(world, prairie, 'Snark Panel 90', 1, 8)
  const taken = await bondOn(world, prairie, overridden, {
    bay: 1,
    hoursAgo: 5,
    by: world.owner,
    prepared: { surfaces: true, dryFit: false, skimCoat: true },
    overrides: [{ code: 'no-dry-fit', reason: 'Panel was fitted and drilled yesterday on the same clamps' }],
  })
  await clampAt(world, prairie, taken, 4.6)
  const unprepared = await standing(world, prairie, 'Snark Panel 90', 2, 7)
  const against = await bondOn(world, prairie, unprepared, {
    bay: 2,
    hoursAgo: 6,
    prepared: { surfaces: false, dryFit: true, skimCoat: true },
    happened: 'The helper had it on before the e-coat was ground off at the lower end',
  })
  await clampAt(world, prairie, against, 5.7)
  await ahead(world, prairie, [7, 28, 50])

  // High Mesa: a cold stall, and a joint that was lifted apart and waits to be bonded again.
  const cold = await standing(world, mesa, 'Snark Panel 90', 0, 10)
  await clampAt(world, mesa, await bondOn(world, mesa, cold, { bay: 0, hoursAgo: 4 }), 3.5)
  const lifted = await standing(world, mesa, 'Snark Panel 90', 1, 3)
  const apart = await bondOn(world, mesa, lifted, { bay: 1, hoursAgo: 1 })
  await abandonAt(world, mesa, apart, 0.9, 'Panel was lifted to align it: air in the joint')
  await ahead(world, mesa, [20, 44])
}

/** A repair order that stands in a bay now. */
async function standing(
  world: World,
  shop: WorldShop,
  product: string,
  bay: number,
  sinceHours: number,
): Promise<DemoJob> {
  const job = await addJob(world, shop, product, sinceHours + 30, 26 + bay * 9, bay)
  await book(world, shop.bays[bay]!.id, job, -sinceHours, 3 + bay)
  return job
}

/** Bonds of the last weeks, well made but for one that was lifted apart and one that was looked at and accepted. */
async function pastWork(world: World, shop: WorldShop): Promise<void> {
  const products = ['Snark Panel 90', 'Snark Alloy 50', 'Snark Quick 20']
  for (const [i, product] of products.entries()) {
    const hoursAgo = 90 + i * 70
    const isHurried = i === 1 && shop === world.shops[0]
    const panel = isHurried ? PANEL_OF_LESSER_CLASS : i
    const job = await addJob(world, shop, product, hoursAgo + 20, -hoursAgo + 60, panel)
    await book(world, shop.bays[i]!.id, job, -hoursAgo - 1, -hoursAgo + 30)
    const bond = await bondOn(world, shop, job, { bay: i, hoursAgo })
    if (i === 2) await liftedApart(world, shop, job, bond, hoursAgo)
    else if (isHurried) await hurried(world, shop, bond, hoursAgo)
    else {
      await clampAt(world, shop, bond, hoursAgo - 0.3)
      await releaseAt(world, shop, bond, hoursAgo - 29)
    }
    await closeAt(world, job, hoursAgo - 60)
  }
}

/** Of the demo's panels: a class for whose acceptance one person answers. */
const PANEL_OF_LESSER_CLASS = 4

async function liftedApart(
  world: World,
  shop: WorldShop,
  job: DemoJob,
  bond: string,
  hoursAgo: number,
): Promise<void> {
  await abandonAt(world, shop, bond, hoursAgo - 0.1, 'Panel was lifted to align it: air in the joint')
  const again = await bondOn(world, shop, job, { bay: 2, hoursAgo: hoursAgo - 1 })
  await clampAt(world, shop, again, hoursAgo - 1.2)
  await measureAt(world, shop, again, hoursAgo - 28)
  await releaseAt(world, shop, again, hoursAgo - 29)
}

async function hurried(world: World, shop: WorldShop, bond: string, hoursAgo: number): Promise<void> {
  await clampAt(world, shop, bond, hoursAgo - 0.3)
  await releaseAt(world, shop, bond, hoursAgo - 0.8, 'Clamps were taken for another job')
  const reason = 'Put back under clamps within the minute; sound all along next day'
  await disposeAt(world, bond, hoursAgo - 29, reason)
}

/** What is booked for the next days, in whichever bay is free then: a cure may keep one longer than was thought. */
async function ahead(world: World, shop: WorldShop, hours: readonly number[]): Promise<void> {
  const products = ['Snark Panel 90', 'Snark Alloy 50', 'Snark Quick 20']
  for (const [i, from] of hours.entries()) {
    const bay = await freeBay(world, shop, from + 4, from + 16, i + 2)
    if (!bay) continue
    const job = await addJob(world, shop, products[i % products.length]!, 2, from + 70, i)
    await book(world, bay, job, from + 4, from + 16)
    await book(world, shop.clampSetId, job, from + 5, from + 15)
    await book(world, shop.ovenId, job, from + 20, from + 21.5, 60)
  }
}

async function freeBay(
  { tx, now }: World,
  shop: WorldShop,
  fromHours: number,
  toHours: number,
  first: number,
): Promise<string | undefined> {
  const taken = await tx.booking.findMany({
    where: {
      shopId: shop.id,
      cancelledAt: null,
      startsAt: { lt: hoursFrom(now, toHours) },
      endsAt: { gt: hoursFrom(now, fromHours) },
    },
    select: { resourceId: true },
  })
  const inTurn = shop.bays.map((_, i) => shop.bays[(i + first) % shop.bays.length]!.id)
  return inTurn.find((id) => !taken.some(({ resourceId }) => resourceId === id))
}
