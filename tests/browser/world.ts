import type { BrowserContext, Page } from 'playwright-core'
import { get, openAs, openPage, post, type Options } from './browser.ts'

interface Named {
  readonly id: string
  readonly name: string
}

/** A shop of its own for one test file, so that files disturb neither each other nor the demo. */
export interface World {
  readonly owner: Page
  readonly shop: Named
  /** With a thermometer that has told three days of 22 degC, so that there is a forecast. */
  readonly bay: Named
  /** With none. */
  readonly otherBay: Named
  readonly dispenser: Named
  readonly product: Named
  readonly lotNumber: string
  readonly cartridges: readonly { readonly id: string; readonly code: string }[]
}

/** What the form of a bond asks for on mild steel, with a product that wants it bare. */
export const PREPARATION = [
  'Grind off e-coat and zinc',
  'Wipe with solvent',
  'Let the solvent flash off',
  'Dry fit, clamps set out',
  'Skim coat for bared metal',
] as const

let count = 0

/** Letters and digits that no other test file has taken. */
export function unique(): string {
  count += 1
  return `${process.pid.toString(36)}${Date.now().toString(36).slice(-5)}${count}`.toUpperCase()
}

/** Minutes at 23 degC of the product of a world that says nothing else. */
const UNHURRIED: Speed = { workTimeMinutes: 40, handlingTimeMinutes: 240, fullCureMinutes: 1440 }
/** For a test that waits until a bond is ready. */
export const QUICK: Speed = { workTimeMinutes: 0.25, handlingTimeMinutes: 0.3, fullCureMinutes: 5 }

interface Speed {
  readonly workTimeMinutes: number
  readonly handlingTimeMinutes: number
  readonly fullCureMinutes: number
}

/** An invented product (it cures in four hours at 23 degC), six cartridges of it, two bays and a gun. */
export async function makeWorld(speed = UNHURRIED): Promise<World> {
  const owner = await openAs('owner')
  const context = owner.context()
  const tag = unique()
  const shop = await post<Named>(context, '/v1/shops', {
    name: `Test shop ${tag}`,
    timeZone: 'America/Denver',
    temperatureUnit: 'F',
  })
  const under = `/v1/shops/${shop.id}`
  const bay = await post<Named>(context, `${under}/resources`, { kind: 'bay', name: 'Bay A' })
  const otherBay = await post<Named>(context, `${under}/resources`, { kind: 'bay', name: 'Bay B' })
  await hangThermometer(context, shop, bay)
  const form = `form-${tag}`
  const dispenser = await post<Named>(context, `${under}/dispensers`, {
    name: 'Test gun',
    cartridgeForms: [form],
  })
  const product = await post<Named>(context, '/v1/products', productOf(tag, form, speed))
  await approveSheets(context, product)
  const receipt = await post<{ cartridges: { id: string; code: string }[] }>(context, `${under}/receipts`, {
    productId: product.id,
    lotNumber: `L${tag}`,
    printedExpiry: { date: daysAhead(200) },
    cartridges: 6,
  })
  return {
    owner,
    shop,
    bay,
    otherBay,
    dispenser,
    product,
    lotNumber: `L${tag}`,
    cartridges: receipt.cartridges,
  }
}

/** Somebody else compares with the print what is proposed of a product. */
async function approveSheets(context: BrowserContext, product: { readonly id: string }): Promise<void> {
  const { sheets } = await get<{
    sheets: { id: string; approval: object | null; rejection: object | null }[]
  }>(context, `/v1/products/${product.id}`)
  const partsManager = await openAs('parts')
  for (const { id } of sheets.filter(({ approval, rejection }) => !approval && !rejection))
    await post(partsManager.context(), `/v1/products/${product.id}/sheets/${id}/approval`, {})
  await partsManager.context().close()
}

async function hangThermometer(context: BrowserContext, shop: Named, bay: Named): Promise<void> {
  const sensor = await post<Named>(context, `/v1/shops/${shop.id}/sensors`, {
    name: `Test thermometer ${unique()}`,
    place: 'bay',
    resourceId: bay.id,
    accuracyC: 0.3,
  })
  const readings = Array.from({ length: 73 }, (_, hour) => ({
    at: hoursAhead(hour - 72.05),
    temperatureC: 22,
    relativeHumidityPercent: 45,
  }))
  await post(context, `/v1/sensors/${sensor.id}/readings`, { readings })
}

/** A repair order with one joint, standing in a bay from now on. */
export async function makeJob(
  { owner, shop, bay, product }: World,
  place: Named = bay,
  safetyClass: 'S1' | 'S2' | 'S3' = 'S3',
) {
  const context = owner.context()
  const number = `R${unique()}`
  const order = await post<Named>(context, `/v1/shops/${shop.id}/repairOrders`, {
    number,
    vehicle: `Invented car ${number}`,
  })
  const joint = await post<Named>(context, `/v1/repairOrders/${order.id}/joints`, {
    name: 'Outer sill, left',
    panelMaterial: 'mildSteel',
    panelThicknessMm: 0.8,
    safetyClass,
    productId: product.id,
    lengthMm: 600,
    flangeWidthMm: 18,
    beadDiameterMm: 5,
    procedure: { document: 'Invented manual 7', revision: 'B', lookedUpOn: daysAhead(0) },
  })
  await post(context, '/v1/bookings', {
    resourceId: place.id,
    repairOrderId: order.id,
    startsAt: hoursAhead(-1),
    endsAt: hoursAhead(9),
  })
  return { order, joint: { ...joint, bayId: place.id }, number, vehicle: `Invented car ${number}` }
}

/** One more bay with its thermometer, for a test that needs a free one. */
export async function addBay({ owner, shop }: World): Promise<Named> {
  const name = `Bay ${unique()}`
  const bay = await post<Named>(owner.context(), `/v1/shops/${shop.id}/resources`, { kind: 'bay', name })
  await hangThermometer(owner.context(), shop, bay)
  return bay
}

/** Somebody new, in the test shop or (an owner) in the whole chain, and qualified for nothing. @returns a page signed in. */
export async function openAsNewcomer(world: World, role: 'owner' | 'technician', options?: Options) {
  const person = await addNewcomer(world, role)
  const page = await openPage(options)
  await post(page.context(), '/v1/sessions', person)
  return page
}

/** The same, not signed in. @returns what that person signs in with. */
export async function addNewcomer({ owner, shop }: World, role: 'owner' | 'technician') {
  const tag = unique()
  const person = {
    email: `newcomer-${tag.toLowerCase()}@test.example`,
    password: 'copper lantern meadow seven boats',
  }
  await post(owner.context(), '/v1/people', {
    ...person,
    name: `Invented newcomer ${tag}`,
    mustChangePassword: false,
    memberships: [{ role, shopId: role === 'owner' ? null : shop.id }],
  })
  return person
}

/** Bonds that were started in each world: a cartridge suffices for three, and some on the screen. */
const started = new WeakMap<World, number>()

/** A bond on a job's joint, in the bay that it stands in, applied now on a panel of 23 degC. */
export async function startBond(
  world: World,
  joint: { readonly id: string; readonly bayId: string },
  overrides: readonly { code: string; reason: string }[] = [],
) {
  const { owner, cartridges, dispenser } = world
  const count = started.get(world) ?? 0
  started.set(world, count + 1)
  return post<{ id: string }>(owner.context(), `/v1/joints/${joint.id}/bonds`, {
    // The first, then from the last on: tests use those between by name.
    cartridgeId: cartridges.at(-Math.ceil(count / 3))?.id,
    dispenserId: dispenser.id,
    bayId: joint.bayId,
    panel: { temperatureC: 23, accuracyC: 0.5 },
    airTemperatureC: 22,
    relativeHumidityPercent: 45,
    amountMl: 40,
    prepared: { surfaces: true, dryFit: true, skimCoat: true },
    overrides,
  })
}

export function bookingsOf({ owner, shop }: World) {
  const period = `from=${encodeURIComponent(hoursAhead(-48))}&to=${encodeURIComponent(hoursAhead(240))}`
  return get<{ items: { id: string; resourceName: string; repairOrderNumber: string }[] }>(
    owner.context(),
    `/v1/bookings?shopId=${shop.id}&${period}`,
  )
}

function hoursAhead(hours: number): string {
  return new Date(Date.now() + hours * 3_600_000).toISOString()
}

function daysAhead(days: number): string {
  return hoursAhead(days * 24).slice(0, 10)
}

function productOf(tag: string, cartridgeForm: string, speed: Speed) {
  const at = (temperatureC: number, times: number) => ({
    temperatureC,
    workTimeMinutes: speed.workTimeMinutes * times,
    handlingTimeMinutes: speed.handlingTimeMinutes * times,
    fullCureMinutes: speed.fullCureMinutes * times,
  })
  return {
    name: `Invented acrylic ${tag}`,
    chemistry: 'acrylic',
    mixRatio: '10:1',
    cartridgeForm,
    cartridgeMl: 200,
    openLifeDays: 60,
    storageRangeC: { min: 5, max: 30 },
    labelStorageC: 23,
    nozzleHoldUpMl: 5,
    glassBeadMm: 0.25,
    toleratesPrimer: false,
    sheet: {
      revision: 'A',
      issuedOn: daysAhead(-400),
      points: [at(15, 2), at(23, 1), at(35, 0.45)],
      applicationRangeC: { min: 15, max: 32 },
      lowestCureC: 8,
      highestCureC: 80,
      serviceRangeC: { min: -40, max: 120 },
      // A test that waits for a bond has no hours to spend.
      confirmed: ['handlingInMinutes'],
    },
  }
}
