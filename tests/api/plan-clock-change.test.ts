import ICAL from 'ical.js'
import { DateTime, Interval } from 'luxon'
import { afterAll, beforeAll, expect, it } from 'vitest'
import {
  makePlannedJob,
  makePlannedShop,
  planned,
  startPlanning,
  type PlannedShop,
  type WirePlan,
} from '../support/planned-shop.ts'
import { startTestApp, type Client, type TestApp } from '../support/test-app.ts'

/** Nights of the IANA time zone database (2024a) on which clocks change, the instant, and by how many minutes; and one without. */
const NIGHTS = [
  ['Etc/UTC', '2031-03-09T02:00:00Z', 0],
  ['America/New_York', '2031-03-09T07:00:00Z', 60],
  ['America/New_York', '2031-11-02T06:00:00Z', -60],
  ['Australia/Lord_Howe', '2031-04-05T15:00:00Z', -30],
] as const

/** The shop works from the evening before through the night of the change, then in the afternoons. */
const NIGHT_SHIFT = [
  { weekday: 6, from: '21:00', until: '24:00' },
  { weekday: 7, from: '00:00', until: '00:15' },
  { weekday: 7, from: '00:45', until: '06:00' },
  ...[7, 1, 2, 3].map((weekday) => ({ weekday, from: '13:00', until: '21:00' })),
]
interface Worked {
  readonly shop: PlannedShop
  readonly plan: WirePlan
  /** Minutes of the template, by operation; null for the cure. */
  readonly minutes: ReadonlyMap<string, number | null>
}

let test: TestApp
let stopPlanning: () => Promise<void>
beforeAll(async () => {
  test = await startTestApp('embedded')
  stopPlanning = startPlanning(test.app)
})
afterAll(async () => {
  await stopPlanning()
  await test.end()
})

async function planOf(owner: Client, zone: string): Promise<Worked> {
  const shop = await makePlannedShop({ ...test, owner }, zone)
  await owner.put(`/v1/shops/${shop.shopId}/workingHours`, { shifts: NIGHT_SHIFT })
  const { operations } = await makePlannedJob(owner, shop)
  const plan = await planned(owner, shop.shopId, { iterations: 60 })
  expect(plan).toMatchObject({ state: 'draft', fault: null, notes: { unplanned: [] } })
  return { shop, plan, minutes: new Map(operations.map(({ id, workMinutes }) => [id, workMinutes])) }
}

/** Minutes of the shifts, read off the shop's wall clock, within a stretch of time. Luxon alone, nothing of the program. */
function shiftMinutesWithin(startsAt: string, endsAt: string, zone: string): number {
  const within = Interval.fromDateTimes(DateTime.fromISO(startsAt), DateTime.fromISO(endsAt))
  const first = DateTime.fromISO(startsAt, { zone }).startOf('day').minus({ days: 1 })
  const days = Array.from({ length: 12 }, (_, i) => first.plus({ days: i }))
  return days
    .flatMap((day) =>
      NIGHT_SHIFT.filter(({ weekday }) => weekday === day.weekday).map(({ from, until }) => {
        const at = (clock: string) =>
          clock === '24:00'
            ? day.plus({ days: 1 })
            : day.set({ hour: Number(clock.slice(0, 2)), minute: Number(clock.slice(3)) })
        return Interval.fromDateTimes(at(from), at(until)).intersection(within)?.length('minutes') ?? 0
      }),
    )
    .reduce((sum, minutes) => sum + minutes, 0)
}

it('adds up over the nights on which clocks change, and a cure takes as long as on any other', async () => {
  const cures: number[] = []
  for (const [zone, change, forward] of NIGHTS) {
    const changeAt = DateTime.fromISO(change, { zone })
    expect(changeAt.offset - changeAt.minus({ minutes: 1 }).offset, zone).toBe(forward)
    // Nine in the evening before, on that shop's clock.
    test.clock.now = changeAt.minus({ hours: 12 }).set({ hour: 21, minute: 0 }).toJSDate()
    const owner = await test.signIn('owner@test.example')
    const { shop, plan, minutes } = await planOf(owner, zone)

    for (const { operationId, kind, startsAt, endsAt } of plan.operations) {
      const worked = shiftMinutesWithin(startsAt, endsAt, zone)
      const passed = DateTime.fromISO(endsAt).diff(DateTime.fromISO(startsAt)).as('minutes')
      const what = `${kind} from ${startsAt} to ${endsAt} in ${zone}`
      if (kind === 'cure') {
        // The night is about something: the cure goes through the change.
        expect(Interval.fromISO(`${startsAt}/${endsAt}`).contains(changeAt), what).toBe(true)
        cures.push(passed)
        continue
      }
      // People work their minutes in shifts; a bond and a bake are made without a break; cooling passes by itself.
      if (kind !== 'cool') expect(worked, what).toBe(minutes.get(operationId))
      if (['bondAndClamp', 'bake', 'cool'].includes(kind)) expect(passed, what).toBe(minutes.get(operationId))
    }
    await readsBack(owner, shop, plan)
  }
  // Steady air, the same hour of the shop's evening: what the clock on the wall does is nothing to the adhesive.
  expect(new Set(cures)).toEqual(new Set([cures[0]]))
})

/** Publishes the plan; what a calendar program reads is then when the places are taken. */
async function readsBack(owner: Client, shop: PlannedShop, plan: WirePlan): Promise<void> {
  expect((await owner.post(`/v1/plans/${plan.id}/publication`)).status).toBe(201)
  const taken = plan.stays.filter(({ resourceId }) => [shop.bayId, shop.otherBayId].includes(resourceId))
  const read: string[] = []
  for (const resourceId of new Set(taken.map((stay) => stay.resourceId))) {
    const { path } = await owner.made<{ path: string }>(`/v1/resources/${resourceId}/calendarFeeds`)
    const calendar = new ICAL.Component(ICAL.parse((await test.anybody.get(path)).text) as unknown[])
    for (const each of calendar.getAllSubcomponents('vevent')) {
      const { startDate, endDate } = new ICAL.Event(each)
      read.push(`${startDate.toJSDate().toISOString()}/${endDate.toJSDate().toISOString()}`)
    }
  }
  expect(taken.length).toBeGreaterThan(0)
  expect(read.toSorted()).toEqual(taken.map(({ startsAt, endsAt }) => `${startsAt}/${endsAt}`).toSorted())
}
