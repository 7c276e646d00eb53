import { ROUTES } from '../contracts.ts'
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'
import { byCursor } from '../pages.ts'

export interface CartridgeFilter {
  readonly shopId?: string | undefined
  readonly productId?: string | undefined
  readonly lotId?: string | undefined
  readonly code?: string | undefined
  readonly urgency?: 'expired' | 'soon' | 'good' | undefined
  readonly state?: 'sealed' | 'opened' | 'empty' | 'discarded' | undefined
}

export interface MovementFilter {
  readonly shopId?: string | undefined
  readonly lotId?: string | undefined
  readonly cartridgeId?: string | undefined
}

export const stockQueries = {
  cartridges: (filter: CartridgeFilter, limit = 100) =>
    infiniteQueryOptions({
      queryKey: ['stock', 'cartridges', filter, limit],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listCartridges, { query: { ...filter, limit, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock', 'products', 'shops'], shopId: filter.shopId },
    }),
  cartridge: (cartridgeId: string) =>
    queryOptions({
      queryKey: ['stock', 'cartridge', cartridgeId],
      queryFn: ({ signal }) => call(ROUTES.getCartridge, { params: { cartridgeId }, signal }),
      meta: { topics: ['stock'] },
    }),
  cartridgeStorage: (cartridgeId: string) =>
    queryOptions({
      queryKey: ['stock', 'cartridgeStorage', cartridgeId],
      queryFn: ({ signal }) => call(ROUTES.getCartridgeStorage, { params: { cartridgeId }, signal }),
      meta: { topics: ['stock'] },
    }),
  /** What a label belongs to, asked by its text: it changes nothing, though it is a POST. */
  byLabel: (shopId: string, text: string) =>
    queryOptions({
      queryKey: ['stock', 'byLabel', shopId, text],
      queryFn: ({ signal }) => call(ROUTES.readScan, { params: { shopId }, body: { text }, signal }),
      retry: false,
    }),
  shipments: (filter: { readonly shopId?: string | undefined; readonly onTheWay?: 'true' | undefined }) =>
    infiniteQueryOptions({
      queryKey: ['stock', 'shipments', filter],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listShipments, { query: { ...filter, limit: 50, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock'] },
    }),
  counts: (shopId: string) =>
    infiniteQueryOptions({
      queryKey: ['stock', 'counts', shopId],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listStockCounts, { query: { shopId, limit: 50, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock'], shopId },
    }),
  count: (countId: string) =>
    queryOptions({
      queryKey: ['stock', 'count', countId],
      queryFn: ({ signal }) => call(ROUTES.getStockCount, { params: { countId }, signal }),
      meta: { topics: ['stock'] },
    }),
  recall: (lotId: string) =>
    queryOptions({
      queryKey: ['stock', 'recall', lotId],
      queryFn: ({ signal }) => call(ROUTES.getLotRecall, { params: { lotId }, signal }),
      meta: { topics: ['stock', 'bonds'] },
    }),
  lotStorage: (lotId: string) =>
    queryOptions({
      queryKey: ['stock', 'lotStorage', lotId],
      queryFn: ({ signal }) => call(ROUTES.getLotStorage, { params: { lotId }, signal }),
      meta: { topics: ['stock'] },
    }),
  expiries: (filter: { readonly shopId?: string | undefined; readonly productId?: string | undefined }) =>
    queryOptions({
      queryKey: ['stock', 'expiries', filter],
      queryFn: ({ signal }) => call(ROUTES.listExpiries, { query: filter, signal }),
      meta: { topics: ['stock', 'products'], shopId: filter.shopId },
    }),
  reservations: (filter: { readonly shopId?: string | undefined; readonly jointId?: string | undefined }) =>
    queryOptions({
      queryKey: ['stock', 'reservations', filter],
      queryFn: ({ signal }) => call(ROUTES.listReservations, { query: filter, signal }),
      meta: { topics: ['stock', 'bonds'], shopId: filter.shopId },
    }),
  labelSheets: () =>
    queryOptions({
      queryKey: ['stock', 'labelSheets'],
      queryFn: ({ signal }) => call(ROUTES.listLabelSheets, { signal }),
      staleTime: Infinity,
    }),
  lots: (filter: { readonly productId?: string | undefined; readonly lotNumber?: string | undefined }) =>
    infiniteQueryOptions({
      queryKey: ['stock', 'lots', filter],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listLots, { query: { ...filter, limit: 100, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock'] },
    }),
  lot: (lotId: string) =>
    queryOptions({
      queryKey: ['stock', 'lot', lotId],
      queryFn: ({ signal }) => call(ROUTES.getLot, { params: { lotId }, signal }),
      meta: { topics: ['stock'] },
    }),
  movements: (filter: MovementFilter) =>
    infiniteQueryOptions({
      queryKey: ['stock', 'movements', filter],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listStockMovements, { query: { ...filter, limit: 100, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock'], shopId: filter.shopId },
    }),
}
