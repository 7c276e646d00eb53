import { expect, it } from 'vitest'
import type { Booking, PlanDetail, Resource } from '../../../api/types.ts'
import { lanesOf, rowsOf } from './rows.ts'

const span = (from: number, until: number) => ({
  startsAt: new Date(from * 3_600_000).toISOString(),
  endsAt: new Date(until * 3_600_000).toISOString(),
})

it('uses one lane while nothing overlaps, and reuses a lane that is free again', () => {
  expect(lanesOf([span(0, 1), span(1, 2), span(2, 3)])).toEqual([0, 0, 0])
  expect(lanesOf([span(0, 4), span(1, 2), span(2, 3), span(2, 5)])).toEqual([0, 1, 1, 2])
})

it('shows what stands on a place beside the plan, and lays clamps that are taken so among the planned ones', () => {
  const place = { active: true, attributes: [], skills: [] }
  const resources = [
    { ...place, id: 'bay', kind: 'bay', name: 'Bay' },
    { ...place, id: 'clamps', kind: 'clampSet', name: 'Clamps' },
  ] as unknown as Resource[]
  const stay = { ...span(4, 6), repairOrderId: 'car', units: 1 }
  const plan = {
    orders: [{ id: 'car', number: 'RO-1' }],
    operations: [],
    stays: [
      { ...stay, resourceId: 'bay' },
      { ...stay, resourceId: 'clamps' },
    ],
  } as unknown as PlanDetail
  const booked = { ...span(0, 3), repairOrderNumber: 'RO-2', units: 2, planId: null }
  const bookings = [
    { ...booked, id: 'a', resourceId: 'bay' },
    { ...booked, id: 'b', resourceId: 'clamps' },
    { ...booked, id: 'c', resourceId: 'bay', planId: 'of the plan' },
  ] as unknown as Booking[]
  const [bay, clamps] = rowsOf(plan, resources, 'places', bookings)
  expect(bay!.others.map(({ id }) => id)).toEqual(['a'])
  expect(bay!.stays.map(({ label }) => label)).toEqual(['RO-1'])
  expect(clamps!.others).toEqual([])
  expect(clamps!.stays.map(({ label }) => label)).toEqual(['RO-2 × 2', 'RO-1 × 1'])
})
