import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

const STEADY_MS = 5 * 60_000

export const shopQueries = {
  all: () =>
    queryOptions({
      queryKey: ['shops'],
      queryFn: ({ signal }) => call(ROUTES.listShops, { signal }),
      meta: { topics: ['shops'] },
      staleTime: STEADY_MS,
    }),
  resources: (shopId: string) =>
    queryOptions({
      queryKey: ['shops', shopId, 'resources'],
      queryFn: ({ signal }) => call(ROUTES.listResources, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
      staleTime: STEADY_MS,
    }),
  dispensers: (shopId: string) =>
    queryOptions({
      queryKey: ['shops', shopId, 'dispensers'],
      queryFn: ({ signal }) => call(ROUTES.listDispensers, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
      staleTime: STEADY_MS,
    }),
  instruments: (shopId: string) =>
    queryOptions({
      queryKey: ['shops', shopId, 'instruments'],
      queryFn: ({ signal }) => call(ROUTES.listInstruments, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
      staleTime: STEADY_MS,
    }),
  locations: (shopId: string) =>
    queryOptions({
      queryKey: ['shops', shopId, 'storageLocations'],
      queryFn: ({ signal }) => call(ROUTES.listStorageLocations, { params: { shopId }, signal }),
      meta: { topics: ['shops'], shopId },
      staleTime: STEADY_MS,
    }),
}
