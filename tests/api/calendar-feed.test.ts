import ICAL from 'ical.js'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { makeShop, type Shop } from '../support/fixtures.ts'
import { startTestApp, type Client, type TestApp } from '../support/test-app.ts'

/** The nights of the IANA time zone database (2024a) on which clocks change, with the instant at which they do. */
const NIGHTS = [
  ['America/New_York', '2031-11-02T06:00:00Z'],
  ['Europe/Berlin', '2031-10-26T01:00:00Z'],
  ['Australia/Lord_Howe', '2031-10-04T15:30:00Z'],
  ['America/Santiago', '2031-09-07T04:00:00Z'],
  ['Pacific/Auckland', '2031-09-27T14:00:00Z'],
] as const

interface Feed {
  readonly id: string
  readonly path: string
}

let test: TestApp
let owner: Client
beforeAll(async () => {
  test = await startTestApp('embedded')
  owner = test.owner
})
afterAll(() => test.end())

const read = (path: string) => test.anybody.get(path)

async function booked(shop: Shop, from: Date, until: Date): Promise<void> {
  const { id } = await owner.made(`/v1/shops/${shop.shopId}/repairOrders`, {
    number: `RO;${from.getTime()}`,
    vehicle: 'Estate, red; "old"',
  })
  await owner.made('/v1/bookings', {
    resourceId: shop.bayId,
    repairOrderId: id,
    startsAt: from.toISOString(),
    endsAt: until.toISOString(),
  })
}

it.each(NIGHTS)('reads back the same instants over the change of clocks in %s', async (zone, change) => {
  const at = Date.parse(change)
  test.clock.now = new Date(at - 5 * 86_400_000)
  // Months have gone by: nobody is signed in any more.
  owner = await test.signIn('owner@test.example')
  // The zone's clock does change then: this is what the test is about.
  const clock = new Intl.DateTimeFormat('en', { timeZone: zone, timeZoneName: 'longOffset' })
  const offset = (ms: number) => clock.formatToParts(ms).find(({ type }) => type === 'timeZoneName')!.value
  expect(offset(at - 60_000)).not.toBe(offset(at))
  const shop = await makeShop(owner, zone)
  const stays = [
    [at - 3 * 3_600_000, at - 60_000],
    [at - 60_000, at + 5_400_000],
    [at + 86_400_000, at + 90_000_000],
  ].map(([from, until]) => [new Date(from!), new Date(until!)] as const)
  for (const [from, until] of stays) await booked(shop, from, until)
  const feed = await owner.made<Feed>(`/v1/resources/${shop.bayId}/calendarFeeds`)
  const answer = await read(feed.path)
  expect(answer.headers['content-type']).toContain('text/calendar')
  const calendar = new ICAL.Component(ICAL.parse(answer.text) as unknown[])
  const events = calendar.getAllSubcomponents('vevent').map((each) => new ICAL.Event(each))
  expect(events.map(({ startDate, endDate }) => [startDate.toJSDate(), endDate.toJSDate()])).toEqual(stays)
  expect(events[0]!.summary).toContain('Estate, red; "old"')
  expect(new Set(events.map(({ uid }) => uid)).size).toBe(3)
})

it('answers to nobody who does not have the address, and to nobody once it is revoked', async () => {
  const shop = await makeShop(owner)
  const feed = await owner.made<Feed>(`/v1/resources/${shop.bayId}/calendarFeeds`)
  expect((await read(feed.path)).status).toBe(200)
  expect((await read(feed.path.replace('.ics', 'x.ics'))).status).toBe(404)
  const { items } = await owner.read<{ items: object[] }>(`/v1/shops/${shop.shopId}/calendarFeeds`)
  expect(items).toEqual([expect.objectContaining({ id: feed.id, resourceName: 'Bay 1', revokedAt: null })])
  expect(JSON.stringify(items)).not.toContain(feed.path.slice(10, 40))
  expect((await owner.delete(`/v1/calendarFeeds/${feed.id}`)).status).toBe(204)
  expect((await read(feed.path)).body.type).toBe('/problems/not-found')
})

it('leaves out what was cancelled, and what is of another bay', async () => {
  const shop = await makeShop(owner)
  const from = new Date(test.clock.now.getTime() + 3_600_000)
  await booked(shop, from, new Date(from.getTime() + 3_600_000))
  const other = await owner.made<Feed>(`/v1/resources/${shop.otherBayId}/calendarFeeds`)
  expect((await read(other.path)).text).not.toContain('VEVENT')
  const feed = await owner.made<Feed>(`/v1/resources/${shop.bayId}/calendarFeeds`)
  expect((await read(feed.path)).text).toContain('VEVENT')
  const [booking] = await test.database.prisma.booking.findMany({ where: { resourceId: shop.bayId } })
  await owner.delete(`/v1/bookings/${booking!.id}`)
  expect((await read(feed.path)).text).not.toContain('VEVENT')
})
