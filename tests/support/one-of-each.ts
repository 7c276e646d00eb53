import { acceptance, application, makeJoint, PHOTO, receive, steadyAir, type Shop } from './fixtures.ts'
import { PASSWORD, type TestApp } from './test-app.ts'

interface WithIncidents {
  readonly id: string
  readonly incidents: readonly {
    readonly id: string
    readonly kind: string
    readonly inspections: readonly { readonly id: string }[]
  }[]
}

/** The ids of one thing of each kind in a shop, by the name that paths and bodies have for them. */
export async function oneOfEach(test: TestApp, shop: Shop, other: Shop): Promise<Record<string, string>> {
  const { owner } = test
  const { shopId } = shop
  const made = async (path: string, body: object = {}) => (await owner.made(path, body)).id
  const inShop = (path: string, body?: object) => made(`/v1/shops/${shopId}/${path}`, body)
  const [piece, sent, used] = await receive(owner, shop, { cartridges: 3 })
  const { lotId } = await owner.read<{ lotId: string }>(`/v1/cartridges/${piece!.id}`)
  const { orderId: repairOrderId, jointId } = await makeJoint(owner, shop)
  const { items: operations } = await owner.made<{ items: { id: string }[] }>(
    `/v1/repairOrders/${repairOrderId}/operations`,
    { template: 'doorSkin', jointId },
  )
  const supplierId = await made('/v1/suppliers', {
    name: 'Invented supplier',
    leadDays: 3,
    leadDeviationDays: 1,
    orderCostCents: 500,
  })
  await owner.made(`/v1/products/${shop.productId}/supply`, {
    supplierId,
    unitPriceCents: 1000,
    boxOf: 1,
    freshDays: 300,
  })
  await owner.put(`/v1/shops/${shopId}/workingHours`, {
    shifts: [{ weekday: 1, from: '07:00', until: '16:00' }],
  })
  const { sheet } = await owner.read<{ sheet: { id: string } }>(`/v1/products/${shop.productId}`)
  const path = `/v1/products/${shop.productId}`
  const pdf = Buffer.from('%PDF-1.7 %%EOF').toString('base64')
  await owner.made(`${path}/sheets/${sheet.id}/documents`, { name: 'maker.pdf', base64: pdf })
  const documented = await owner.read<{ sheets: { documents: { id: string }[] }[] }>(path)
  const lines = [{ productId: shop.productId, cartridges: 1 }]
  return {
    shopId,
    fromShopId: shopId,
    toShopId: other.shopId,
    resourceId: shop.bayId,
    bayId: shop.bayId,
    placeId: shop.bayId,
    ovenId: shop.ovenId,
    dispenserId: shop.dispenserId,
    locationId: shop.locationId,
    sensorId: shop.sensorId,
    productId: shop.productId,
    sheetId: sheet.id,
    documentId: documented.sheets[0]!.documents[0]!.id,
    cartridgeId: piece!.id,
    cartridgeIds: piece!.id,
    lotId,
    repairOrderId,
    jointId,
    operationId: operations[0]!.id,
    key: 'doorSkin',
    gtin: '00000000000017',
    supplierId,
    orderId: await inShop('orders', { supplierId, lines }),
    bookingId: await made('/v1/bookings', {
      resourceId: shop.bayId,
      repairOrderId,
      startsAt: '2031-05-09T08:00:00Z',
      endsAt: '2031-05-09T09:00:00Z',
    }),
    personId: await made('/v1/people', {
      name: 'Somebody there',
      email: 'there@test.example',
      password: PASSWORD,
      memberships: [{ shopId, role: 'technician' }],
    }),
    tokenId: await made('/v1/accessTokens', { name: 'There', scope: 'sensor', shopId }),
    feedId: await made(`/v1/resources/${shop.bayId}/calendarFeeds`),
    countId: await inShop('stockCounts', { locationId: shop.locationId }),
    instrumentId: await inShop('instruments', {
      kind: 'hygrometer',
      name: 'Hygrometer',
      serialNumber: '1',
      accuracyPercent: 3,
    }),
    shipmentId: await inShop('shipments', {
      toShopId: (await aThird(test)).shopId,
      cartridgeIds: [sent!.id],
      reason: 'Needed there',
    }),
    exceptionId: await inShop('dayExceptions', {
      kind: 'closed',
      firstDay: '2031-06-01',
      lastDay: '2031-06-01',
    }),
    planId: await inShop('plans'),
    attachmentId: await made(`/v1/repairOrders/${repairOrderId}/photos`, { base64: PHOTO.base64 }),
    ...(await anInspection(test, shop, used!.id)),
  }
}

/** A shop that neither side of a test sees. */
async function aThird({ owner }: TestApp): Promise<{ shopId: string }> {
  const { id } = await owner.made('/v1/shops', {
    name: 'A third shop',
    timeZone: 'America/New_York',
    temperatureUnit: 'C',
  })
  return { shopId: id }
}

/** A bond with an incident, the alert of it, and an inspection that waits for a second person. */
async function anInspection(
  { owner, clock }: TestApp,
  shop: Shop,
  cartridgeId: string,
): Promise<
  Record<'bondId' | 'readingId' | 'incidentId' | 'alertId' | 'inspectionId' | 'inspectorId', string>
> {
  await steadyAir(owner, shop.sensorId, 23, clock.now)
  const { jointId } = await makeJoint(owner, shop, { safetyClass: 'S2' })
  const [unqualified, unmeasured] = ['not-qualified', 'no-instrument'].map((code) => ({
    code,
    reason: 'For the test',
  }))
  const { id: bondId, measurements } = await owner.made<{ id: string; measurements: { id: string }[] }>(
    `/v1/joints/${jointId}/bonds`,
    application(shop, cartridgeId, { overrides: [unqualified, unmeasured] }),
  )
  clock.now = new Date(clock.now.getTime() + 15 * 60_000)
  await owner.made(`/v1/bonds/${bondId}/clamping`, { overrides: [unqualified] })
  clock.now = new Date(clock.now.getTime() + 30 * 60_000)
  const { incidents } = await owner.made<WithIncidents>(`/v1/bonds/${bondId}/release`, {
    alreadyHappened: true,
    reason: 'Rolled out by mistake',
  })
  const alerts = await owner.read<{ items: { id: string }[] }>(`/v1/alerts?shopId=${shop.shopId}`)
  const incidentId = incidents.find(({ kind }) => kind === 'earlyRelease')!.id
  const { id: inspectorId } = await owner.made('/v1/people', {
    name: 'Inspector there',
    email: 'inspector-there@test.example',
    password: PASSWORD,
    memberships: [{ shopId: shop.shopId, role: 'technician' }],
  })
  await owner.made(`/v1/people/${inspectorId}/qualifications`, {
    safetyClass: 'S1',
    evidence: 'Course 1',
    issuedOn: '2031-01-01',
    validUntil: '2031-12-31',
  })
  const releasedAt = clock.now
  // Only then can it have cured.
  clock.now = new Date(releasedAt.getTime() + 49 * 3_600_000)
  const accepted = await acceptance(owner, incidentId, { photo: PHOTO })
  const bond = await owner.made<WithIncidents>(`/v1/incidents/${incidentId}/disposition`, accepted)
  clock.now = releasedAt
  const { inspections } = bond.incidents.find(({ id }) => id === incidentId)!
  const readingId = measurements[0]!.id
  return {
    bondId,
    readingId,
    incidentId,
    alertId: alerts.items[0]!.id,
    inspectionId: inspections[0]!.id,
    inspectorId,
  }
}
