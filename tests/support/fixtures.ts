import { PASSWORD, type Client } from './test-app.ts'

/** Invented, and small on purpose: one shop with a bay, an oven, a gun, a shelf, a thermometer and one product. */
export interface Shop {
  readonly shopId: string
  readonly bayId: string
  readonly otherBayId: string
  readonly ovenId: string
  readonly clampSetId: string
  readonly dispenserId: string
  readonly locationId: string
  readonly sensorId: string
  readonly storageSensorId: string
  readonly productId: string
}

export const SHEET = {
  revision: 'A',
  issuedOn: '2030-01-01',
  points: [
    { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 180, fullCureMinutes: 1440 },
    { temperatureC: 40, workTimeMinutes: 20, handlingTimeMinutes: 60, fullCureMinutes: 480 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 80,
  serviceRangeC: { min: -40, max: 120 },
}

/** The fixture's sheet of a later revision, with every time multiplied. */
export const sheetTimes = (factor: number, revision: string, changes: object = {}) => ({
  ...SHEET,
  revision,
  issuedOn: '2031-01-01',
  points: SHEET.points.map((point) => ({
    temperatureC: point.temperatureC,
    workTimeMinutes: point.workTimeMinutes * factor,
    handlingTimeMinutes: point.handlingTimeMinutes * factor,
    fullCureMinutes: point.fullCureMinutes * factor,
  })),
  ...changes,
})

export const PRODUCT = {
  name: 'Test adhesive',
  chemistry: 'acrylic',
  mixRatio: '10:1',
  cartridgeForm: 'side-by-side 200',
  cartridgeMl: 200,
  openLifeDays: 30,
  storageRangeC: { min: 5, max: 30 },
  labelStorageC: 23,
  nozzleHoldUpMl: 8,
  glassBeadMm: 0.25,
  toleratesPrimer: false,
  sheet: SHEET,
}

let serial = 0

const others = new WeakMap<Client, Promise<Client>>()

/** Somebody else of the chain who keeps its catalogue; one for each chain. */
export function otherPerson(owner: Client): Promise<Client> {
  const made = others.get(owner) ?? makeOther(owner)
  others.set(owner, made)
  return made
}

async function makeOther(owner: Client): Promise<Client> {
  serial += 1
  const email = `parts-${serial}@fixtures.test.example`
  await owner.made('/v1/people', {
    name: `Parts manager ${serial}`,
    email,
    password: PASSWORD,
    memberships: [{ shopId: null, role: 'partsManager' }],
  })
  const { token } = await owner.made<{ token: string }>('/v1/sessions', { email, password: PASSWORD })
  return owner.as(token)
}

/** Has somebody else approve every revision of a product that is proposed. */
export async function approveSheets(owner: Client, productId: string): Promise<void> {
  const other = await otherPerson(owner)
  const { sheets } = await owner.read<{
    sheets: { id: string; approval: object | null; rejection: object | null }[]
  }>(`/v1/products/${productId}`)
  for (const { id } of sheets.filter(({ approval, rejection }) => !approval && !rejection))
    await other.made(`/v1/products/${productId}/sheets/${id}/approval`)
}

/** A product whose sheet counts. */
export async function makeProduct(owner: Client, changes: object = {}): Promise<{ id: string }> {
  serial += 1
  const product = await owner.made('/v1/products', {
    ...PRODUCT,
    name: `${PRODUCT.name} ${serial}`,
    ...changes,
  })
  await approveSheets(owner, product.id)
  return product
}

export async function makeShop(owner: Client, timeZone = 'America/New_York'): Promise<Shop> {
  serial += 1
  const { id: shopId } = await owner.made('/v1/shops', {
    name: `Shop ${serial}`,
    timeZone,
    temperatureUnit: 'C',
  })
  const resource = async (body: object) => (await owner.made(`/v1/shops/${shopId}/resources`, body)).id
  const bayId = await resource({ kind: 'bay', name: 'Bay 1' })
  const otherBayId = await resource({ kind: 'bay', name: 'Bay 2' })
  const ovenId = await resource({ kind: 'oven', name: 'Oven' })
  const clampSetId = await resource({ kind: 'clampSet', name: 'Clamps', capacity: 3 })
  const { id: dispenserId } = await owner.made(`/v1/shops/${shopId}/dispensers`, {
    name: 'Gun',
    cartridgeForms: ['side-by-side 200'],
  })
  const { id: locationId } = await owner.made(`/v1/shops/${shopId}/storageLocations`, { name: 'Cabinet' })
  const sensor = async (body: object) =>
    (await owner.made(`/v1/shops/${shopId}/sensors`, { accuracyC: 0.5, ...body })).id
  const sensorId = await sensor({ name: 'Bay air', place: 'bay', resourceId: bayId })
  const storageSensorId = await sensor({ name: 'Cabinet air', place: 'storage', locationId })
  const { id: productId } = await makeProduct(owner)
  return {
    shopId,
    bayId,
    otherBayId,
    ovenId,
    clampSetId,
    dispenserId,
    locationId,
    sensorId,
    storageSensorId,
    productId,
  }
}

/** Steady bay air of the days before `now`, one reading a quarter of an hour. */
export async function steadyAir(
  owner: Client,
  sensorId: string,
  temperatureC: number,
  now: Date,
  hours = 48,
): Promise<void> {
  const readings = Array.from({ length: hours * 4 }, (_, i) => ({
    at: new Date(now.getTime() - i * 900_000).toISOString(),
    temperatureC,
    relativeHumidityPercent: 40,
  }))
  await owner.made(`/v1/sensors/${sensorId}/readings`, { readings })
}

/** The same shop with an empty bay that is as warm: another vehicle may stand in the one before. */
export async function freshBay(
  owner: Client,
  shop: Shop,
  now: Date,
  temperatureC = 23,
  hours = 48,
): Promise<Shop> {
  serial += 1
  const { id: bayId } = await owner.made(`/v1/shops/${shop.shopId}/resources`, {
    kind: 'bay',
    name: `Bay of ${serial}`,
  })
  const { id: sensorId } = await owner.made(`/v1/shops/${shop.shopId}/sensors`, {
    accuracyC: 0.5,
    name: `Air of ${serial}`,
    place: 'bay',
    resourceId: bayId,
  })
  await steadyAir(owner, sensorId, temperatureC, now, hours)
  return { ...shop, bayId, sensorId }
}

interface Cartridge {
  readonly id: string
  readonly code: string
  readonly state: string
  readonly remainingMl: number
  readonly effectiveExpiryAt: string
  readonly urgency: string
}

export async function receive(
  owner: Client,
  shop: Shop,
  options: { date?: string; cartridges?: number; lotNumber?: string } = {},
): Promise<Cartridge[]> {
  serial += 1
  const { cartridges } = await owner.made<{ cartridges: Cartridge[] }>(`/v1/shops/${shop.shopId}/receipts`, {
    productId: shop.productId,
    lotNumber: options.lotNumber ?? `L${serial}`,
    printedExpiry: { date: options.date ?? '2031-12-31' },
    cartridges: options.cartridges ?? 1,
    locationId: shop.locationId,
  })
  return cartridges
}

export async function makeJoint(
  owner: Client,
  shop: Shop,
  changes: object = {},
): Promise<{ orderId: string; jointId: string }> {
  serial += 1
  const { id: orderId } = await owner.made(`/v1/shops/${shop.shopId}/repairOrders`, {
    number: `RO-${serial}`,
    vehicle: 'Invented Estate',
  })
  return { orderId, jointId: await addJoint(owner, shop, orderId, changes) }
}

export async function addJoint(
  owner: Client,
  shop: Shop,
  orderId: string,
  changes: object = {},
): Promise<string> {
  const { id } = await owner.made(`/v1/repairOrders/${orderId}/joints`, {
    name: 'Door skin, left',
    panelMaterial: 'mildSteel',
    panelThicknessMm: 0.8,
    safetyClass: 'S3',
    productId: shop.productId,
    lengthMm: 2000,
    flangeWidthMm: 12,
    beadDiameterMm: 4,
    procedure: { document: 'Body manual', revision: 'C', lookedUpOn: '2030-06-03' },
    ...changes,
  })
  return id
}

/** A bond that nothing speaks against, at 23 degC. */
export function application(shop: Shop, cartridgeId: string, changes: object = {}): object {
  return {
    cartridgeId,
    dispenserId: shop.dispenserId,
    bayId: shop.bayId,
    panel: { temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' },
    airTemperatureC: 23,
    relativeHumidityPercent: 40,
    amountMl: 50,
    prepared: { surfaces: true, dryFit: true, skimCoat: true },
    ...changes,
  }
}

/** A black PNG of 320 x 240. */
export const PHOTO = {
  mediaType: 'image/png',
  base64:
    'iVBORw0KGgoAAAANSUhEUgAAAUAAAADwAQAAAABZVoDGAAAAIElEQVR42u3BgQAAAADDoPlTH+ECVQEAAAAAAAAAAMA3JnAAAWMcpeUAAAAASUVORK5CYII=',
}

/** What accepts a joint after all, by the first who may inspect it. */
export async function acceptance(owner: Client, incidentId: string, changes: object = {}): Promise<object> {
  const { items } = await owner.read<{ items: { id: string }[] }>(`/v1/incidents/${incidentId}/inspectors`)
  return {
    kind: 'inspectedAndAccepted',
    inspectorId: items[0]?.id,
    method: 'Tap test',
    result: 'Sound over its whole length',
    ...changes,
  }
}
