import { ROUTES } from '../contracts.ts'
import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const scheduleQueries = {
  bookings: (shopId: string, from: string, to: string) =>
    queryOptions({
      queryKey: ['bookings', shopId, from, to],
      queryFn: ({ signal }) => call(ROUTES.listBookings, { query: { shopId, from, to }, signal }),
      meta: { topics: ['bookings', 'bonds', 'temperature', 'repairs'], shopId },
      placeholderData: keepPreviousData,
    }),
  bayBoard: (shopId: string) =>
    queryOptions({
      queryKey: ['bayBoard', shopId],
      queryFn: ({ signal }) => call(ROUTES.getBayBoard, { params: { shopId }, signal }),
      meta: { topics: ['bookings', 'bonds', 'temperature', 'shops', 'repairs'], shopId },
      // The present booking changes with the clock alone, and no event tells of that; nor may a yes grow old.
      refetchInterval: 25_000,
    }),
}
