import { ROUTES } from '../contracts.ts'
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'
import { byCursor } from '../pages.ts'

export interface RepairOrderFilter {
  readonly shopId?: string | undefined
  readonly state?: 'open' | 'done' | undefined
  readonly number?: string | undefined
}

export const repairQueries = {
  list: (filter: RepairOrderFilter) =>
    infiniteQueryOptions({
      queryKey: ['repairs', 'list', filter],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listRepairOrders, { query: { ...filter, limit: 100, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['repairs', 'bonds', 'bookings'], shopId: filter.shopId },
    }),
  /** With its joints, bonds, readings and forecast: whatever changes there changes this. */
  one: (repairOrderId: string) =>
    queryOptions({
      queryKey: ['repairs', 'one', repairOrderId],
      queryFn: ({ signal }) => call(ROUTES.getRepairOrder, { params: { repairOrderId }, signal }),
      meta: { topics: ['repairs', 'bonds', 'bookings', 'temperature'] },
    }),
}
