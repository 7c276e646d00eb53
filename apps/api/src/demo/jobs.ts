import { wholeMl } from '@clampclock/quantities'
import { DateTime } from 'luxon'
import { disposeIncident } from '../cure/dispositions/dispositions.ts'
import { abandonBond, clampBond, releaseBond } from '../cure/bonds/lifecycle.ts'
import { slideBond } from '../cure/bonds/slide.ts'
import { addPanelReading } from '../cure/bonds/readings.ts'
import { amountNeededMl } from '../work/joints/joint-store.ts'
import { startBond } from '../cure/bonds/start.ts'
import type { Application } from '../cure/bonds/gates.ts'
import { addJoint } from '../cure/repairs/joints.ts'
import { addRepairOrder, editRepairOrder } from '../cure/repairs/repair-orders.ts'
import { addBooking } from '../planning/bookings/bookings.ts'
import type { Actor } from '../foundation/permissions/actor.ts'
import { toMl } from '../foundation/database/volumes.ts'
import { hoursFrom, type World, type WorldShop } from './world.ts'

export const VEHICLES = [
  'Larkspur Dray',
  'Corvid Wayfarer',
  'Muddle Estate',
  'Plover Three',
  'Gannet Pickup',
  'Thimble Electric',
  'Marl Roadster',
  'Osprey Van',
]
const PANELS = [
  {
    name: 'Door skin, left front',
    lengthMm: 2600,
    flangeWidthMm: 12,
    panelMaterial: 'mildSteel',
    panelThicknessMm: 0.8,
    safetyClass: 'S3',
  },
  {
    name: 'Quarter panel, right',
    lengthMm: 3400,
    flangeWidthMm: 18,
    panelMaterial: 'highStrengthSteel',
    panelThicknessMm: 0.8,
    safetyClass: 'S2',
  },
  {
    name: 'Rocker, left',
    lengthMm: 2900,
    flangeWidthMm: 20,
    panelMaterial: 'highStrengthSteel',
    panelThicknessMm: 1.2,
    safetyClass: 'S1',
  },
  {
    name: 'Roof skin',
    lengthMm: 4800,
    flangeWidthMm: 16,
    panelMaterial: 'aluminium6xxx',
    panelThicknessMm: 1.1,
    safetyClass: 'S2',
  },
  {
    name: 'Tailgate skin',
    lengthMm: 2200,
    flangeWidthMm: 14,
    panelMaterial: 'aluminium5xxx',
    panelThicknessMm: 1,
    safetyClass: 'S3',
  },
] as const

/** Vehicles are promised for the end of a working day. */
function endOfWorkAfter(instant: Date, timeZone: string): Date {
  const day = DateTime.fromJSDate(instant, { zone: timeZone }).startOf('day')
  const toMonday = day.weekday > 5 ? 8 - day.weekday : 0
  return day.plus({ days: toMonday }).set({ hour: 16, minute: 30 }).toJSDate()
}

export interface DemoJob {
  readonly orderId: string
  readonly jointId: string
  readonly number: string
}

let serial = 0

export async function addJob(
  world: World,
  shop: WorldShop,
  productName: string,
  openedHoursAgo: number,
  promisedInHours: number,
  panel: number,
): Promise<DemoJob> {
  const { tx, now, scheduler } = world
  const openedAt = hoursFrom(now, -openedHoursAgo)
  serial += 1
  const number = `${shop.plan.name.slice(0, 2).toUpperCase()}-${2400 + serial}`
  const vehicle = VEHICLES[serial % VEHICLES.length]!
  const order = await addRepairOrder(
    tx,
    scheduler,
    shop.id,
    {
      number,
      vehicle: `${vehicle}, ${2018 + (serial % 8)}`,
      vin: null,
      plate: `INV ${String(serial).padStart(3, '0')}`,
      ovenLimitC: vehicle.includes('Electric') ? 60 : null,
      promisedAt: endOfWorkAfter(hoursFrom(now, promisedInHours), shop.plan.timeZone),
      priority: 'normal',
      note: '',
    },
    openedAt,
  )
  const { name, ...figures } = PANELS[panel % PANELS.length]!
  const joint = await addJoint(
    tx,
    scheduler,
    order.id,
    {
      ...figures,
      name,
      productId: productIdOf(world, productName),
      beadDiameterMm: 4,
      procedure: {
        document: `Invented body manual ${100 + serial}`,
        revision: 'C',
        lookedUpOn: DateTime.fromJSDate(openedAt).toISODate()!,
      },
    },
    openedAt,
  )
  return { orderId: order.id, jointId: joint.id, number }
}

function productIdOf({ products }: World, name: string): string {
  return products.find((product) => product.name === name)!.id
}

export interface BondWish {
  readonly bay: number
  readonly hoursAgo: number
  readonly by?: Actor
  readonly overrides?: Application['overrides']
  readonly prepared?: Application['prepared']
  /** It went on although a gate refused. */
  readonly happened?: string
}

/** Starts a bond as a technician would have: a usable cartridge, the panel as warm as the bay was. */
export async function bondOn(world: World, shop: WorldShop, job: DemoJob, wish: BondWish): Promise<string> {
  const { tx, now } = world
  const at = hoursFrom(now, -wish.hoursAgo)
  const bay = shop.bays[wish.bay]!
  const joint = await tx.joint.findUniqueOrThrow({
    where: { id: job.jointId },
    include: { product: { include: { productSheets: true } } },
  })
  const air = await tx.temperatureReading.findFirstOrThrow({
    where: { sensor: { resourceId: bay.id }, at: { lte: at } },
    orderBy: { at: 'desc' },
  })
  const { product } = joint
  const lowestC = product.productSheets[0]!.applicationMinC
  const cartridges = await usableCartridges(world, shop, product.id, at)
  const dispenser = shop.dispensers.find(({ cartridgeForms }) =>
    cartridgeForms.includes(product.cartridgeForm),
  )!
  const shares = share(
    wholeMl(amountNeededMl(joint)),
    cartridges.map(({ remainingUl }) => toMl(remainingUl)),
  )
  const [first, ...more] = shares.map((amountMl, i) => ({ cartridgeId: cartridges[i]!.id, amountMl }))
  const bond = await startBond(
    tx,
    wish.by ?? shop.technician,
    job.jointId,
    {
      ...first!,
      moreCartridges: more,
      dispenserId: dispenser.id,
      bayId: bay.id,
      panel: {
        // In a cold bay the panel is warmed to what the sheet asks before the adhesive goes on.
        temperatureC: Math.max(air.temperatureC, lowestC + 1.5),
        accuracyC: 0.5,
        source: 'metalProbe',
        instrumentId: shop.instruments.probeId,
      },
      // Read with the probe, which is never quite what the bay's thermometer shows.
      airTemperatureC: Math.round((air.temperatureC + 0.4) * 10) / 10,
      airReadWith: 'panelThermometer',
      relativeHumidityPercent: Math.min(60, air.relativeHumidityPercent ?? 45),
      hygrometerId: shop.instruments.hygrometerId,
      // Somebody warmed it: it is warmer than the air, and said to be.
      confirmed: air.temperatureC < lowestC + 1.5 ? ['aboveAir'] : [],
      prepared: wish.prepared ?? { surfaces: true, dryFit: true, skimCoat: true },
      alreadyHappened: wish.happened !== undefined,
      reason: wish.happened ?? '',
      shortAmount: null,
      overrides: wish.overrides ?? [],
    },
    at,
  )
  return bond.id
}

/** Splits an amount over cartridges, each giving what it has. */
function share(amountMl: number, available: readonly number[]): number[] {
  const shares: number[] = []
  let left = amountMl
  for (const ml of available) {
    if (left <= 0) break
    shares.push(Math.min(left, ml))
    left -= ml
  }
  return shares
}

function usableCartridges({ tx }: World, shop: WorldShop, productId: string, at: Date) {
  return tx.cartridge.findMany({
    where: {
      shopId: shop.id,
      state: { in: ['sealed', 'opened'] },
      receivedAt: { lt: at },
      expiresAt: { gt: new Date(at.getTime() + 86_400_000) },
      OR: [{ openedAt: null }, { openedAt: { lt: at } }],
      lot: { productId, holdReason: null },
    },
    orderBy: [{ state: 'asc' }, { expiresAt: 'asc' }],
    take: 6,
  })
}

export async function clampAt(
  world: World,
  shop: WorldShop,
  bondId: string,
  hoursAgo: number,
): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  await clampBond({ tx: world.tx, actor: shop.technician, now }, bondId, { note: '', overrides: [] })
}

/** Pushed into place after the work time. */
export async function slideLateAt(
  world: World,
  shop: WorldShop,
  bondId: string,
  hoursAgo: number,
  reason: string,
): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  await slideBond({ tx: world.tx, actor: shop.technician, now }, bondId, { alreadyHappened: true, reason })
}

/** A second reading of the panel, by then as warm as its bay. */
export async function measureAt(
  world: World,
  shop: WorldShop,
  bondId: string,
  hoursAgo: number,
): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  const { bayId } = await world.tx.bond.findUniqueOrThrow({ where: { id: bondId } })
  const air = await world.tx.temperatureReading.findFirstOrThrow({
    where: { sensor: { resourceId: bayId }, at: { lte: now } },
    orderBy: { at: 'desc' },
  })
  await addPanelReading({ tx: world.tx, actor: shop.technician, now }, bondId, {
    temperatureC: air.temperatureC,
    accuracyC: 0.5,
    source: 'metalProbe',
    instrumentId: shop.instruments.probeId,
    confirmed: [],
  })
}

export async function releaseAt(
  world: World,
  shop: WorldShop,
  bondId: string,
  hoursAgo: number,
  happened?: string,
): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  await releaseBond({ tx: world.tx, actor: shop.technician, now }, bondId, {
    alreadyHappened: happened !== undefined,
    reason: happened ?? '',
    overrides: [],
  })
}

export async function abandonAt(
  world: World,
  shop: WorldShop,
  bondId: string,
  hoursAgo: number,
  reason: string,
): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  await abandonBond({ tx: world.tx, actor: shop.technician, now }, bondId, { reason, wasLifted: true })
}

export async function disposeAt(
  world: World,
  bondId: string,
  hoursAgo: number,
  result: string,
): Promise<void> {
  const incident = await world.tx.incident.findFirstOrThrow({ where: { bondId, disposition: null } })
  const now = hoursFrom(world.now, -hoursAgo)
  await disposeIncident({ tx: world.tx, actor: world.scheduler, now }, incident.id, {
    kind: 'inspectedAndAccepted',
    inspectorId: world.owner.id,
    method: 'Tap test along the whole flange',
    result,
    photo: null,
  })
}

/** The vehicle is handed over. */
export async function closeAt(world: World, job: DemoJob, hoursAgo: number): Promise<void> {
  const now = hoursFrom(world.now, -hoursAgo)
  await editRepairOrder(world.tx, world.scheduler, job.orderId, { state: 'done' }, 1, now)
}

export async function book(
  world: World,
  resourceId: string,
  job: DemoJob,
  fromHours: number,
  toHours: number,
  bakeC?: number,
): Promise<void> {
  await addBooking(
    world.tx,
    world.scheduler,
    {
      resourceId,
      repairOrderId: job.orderId,
      purpose: bakeC === undefined ? 'work' : 'bake',
      startsAt: hoursFrom(world.now, fromHours),
      endsAt: hoursFrom(world.now, toHours),
      highestMetalC: bakeC ?? null,
      bakeProgram: null,
      metalStartC: null,
      units: 1,
      note: '',
    },
    hoursFrom(world.now, Math.min(fromHours, 0)),
  )
}
