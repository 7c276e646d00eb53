import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const planningQueries = {
  hours: (shopId: string) =>
    queryOptions({
      queryKey: ['planning', shopId, 'hours'],
      queryFn: ({ signal }) => call(ROUTES.listWorkingHours, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
    }),
  exceptions: (shopId: string, from: string) =>
    queryOptions({
      queryKey: ['planning', shopId, 'exceptions', from],
      queryFn: ({ signal }) =>
        call(ROUTES.listDayExceptions, { params: { shopId }, query: { from }, signal }),
      meta: { topics: ['shops'], shopId },
    }),
  feeds: (shopId: string) =>
    queryOptions({
      queryKey: ['planning', shopId, 'feeds'],
      queryFn: ({ signal }) => call(ROUTES.listCalendarFeeds, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
    }),
  templates: (shopId: string) =>
    queryOptions({
      queryKey: ['planning', shopId, 'templates'],
      queryFn: ({ signal }) => call(ROUTES.listRepairTemplates, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
    }),
  operations: (repairOrderId: string) =>
    queryOptions({
      queryKey: ['planning', 'operations', repairOrderId],
      queryFn: ({ signal }) => call(ROUTES.listOperations, { params: { repairOrderId }, signal }),
      meta: { topics: ['repairs', 'plans', 'bonds'] },
    }),
}
