import { ROUTES } from '../contracts.ts'
import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const planQueries = {
  published: (shopId: string) =>
    queryOptions({
      queryKey: ['plans', shopId, 'published'],
      queryFn: ({ signal }) => call(ROUTES.getPublishedPlan, { params: { shopId }, signal }),
      // What was planned may come too early by a newer forecast, and what began is told by repairs and bonds.
      meta: { topics: ['plans', 'repairs', 'bonds', 'temperature'], shopId },
      placeholderData: keepPreviousData,
    }),
  list: (shopId: string) =>
    queryOptions({
      queryKey: ['plans', shopId, 'list'],
      queryFn: ({ signal }) => call(ROUTES.listPlans, { params: { shopId }, query: { limit: 10 }, signal }),
      meta: { topics: ['plans', 'planProgress'], shopId },
    }),
  one: (planId: string, shopId: string) =>
    queryOptions({
      queryKey: ['plans', shopId, 'one', planId],
      queryFn: ({ signal }) => call(ROUTES.getPlan, { params: { planId }, signal }),
      meta: { topics: ['plans'], shopId },
      placeholderData: keepPreviousData,
    }),
  comparison: (planId: string, shopId: string) =>
    queryOptions({
      queryKey: ['plans', shopId, 'comparison', planId],
      queryFn: ({ signal }) => call(ROUTES.comparePlan, { params: { planId }, signal }),
      meta: { topics: ['plans'], shopId },
    }),
  figures: (query: { readonly shopId?: string; readonly from: string; readonly to: string }) =>
    queryOptions({
      queryKey: ['plans', 'figures', query],
      queryFn: ({ signal }) => call(ROUTES.getPlanFigures, { query, signal }),
      meta: { topics: ['plans', 'bookings', 'bonds', 'repairs'], shopId: query.shopId },
      placeholderData: keepPreviousData,
    }),
  resourceTime: (shopId: string, from: string, to: string) =>
    queryOptions({
      queryKey: ['plans', shopId, 'time', from, to],
      queryFn: ({ signal }) =>
        call(ROUTES.getResourceTime, { params: { shopId }, query: { from, to }, signal }),
      meta: { topics: ['shops'], shopId },
      placeholderData: keepPreviousData,
    }),
}
