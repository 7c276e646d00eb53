import { ROUTES } from '../contracts.ts'
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'
import { byCursor } from '../pages.ts'

export const replenishmentQueries = {
  ofShop: (shopId: string) =>
    queryOptions({
      queryKey: ['replenishment', shopId],
      queryFn: ({ signal }) => call(ROUTES.listReplenishment, { params: { shopId }, signal }),
      meta: { topics: ['stock'], shopId },
    }),
  waste: (shopId: string | undefined) =>
    queryOptions({
      queryKey: ['replenishment', 'waste', shopId],
      queryFn: ({ signal }) => call(ROUTES.listWaste, { query: { shopId }, signal }),
      meta: { topics: ['stock'], shopId },
    }),
  orders: (shopId: string | undefined) =>
    infiniteQueryOptions({
      queryKey: ['replenishment', 'orders', shopId],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listOrders, { query: { shopId, limit: 50, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['stock'], shopId },
    }),
  order: (orderId: string) =>
    queryOptions({
      queryKey: ['replenishment', 'order', orderId],
      queryFn: ({ signal }) => call(ROUTES.getOrder, { params: { orderId }, signal }),
      meta: { topics: ['stock'] },
    }),
  suppliers: () =>
    queryOptions({
      queryKey: ['replenishment', 'suppliers'],
      queryFn: ({ signal }) => call(ROUTES.listSuppliers, { signal }),
      meta: { topics: ['stock'] },
    }),
  supplies: () =>
    queryOptions({
      queryKey: ['replenishment', 'supplies'],
      queryFn: ({ signal }) => call(ROUTES.listProductSupplies, { signal }),
      meta: { topics: ['stock'] },
    }),
  policy: () =>
    queryOptions({
      queryKey: ['replenishment', 'policy'],
      queryFn: ({ signal }) => call(ROUTES.getReplenishmentPolicy, { signal }),
      meta: { topics: ['stock'] },
    }),
  lanes: () =>
    queryOptions({
      queryKey: ['replenishment', 'lanes'],
      queryFn: ({ signal }) => call(ROUTES.listTransferLanes, { signal }),
      meta: { topics: ['stock'] },
    }),
}
