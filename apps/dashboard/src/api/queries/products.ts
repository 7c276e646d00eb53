import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const productQueries = {
  all: () =>
    queryOptions({
      queryKey: ['products'],
      queryFn: ({ signal }) => call(ROUTES.listProducts, { signal }),
      meta: { topics: ['products'] },
      staleTime: 5 * 60_000,
    }),
  gtins: (productId: string) =>
    queryOptions({
      queryKey: ['products', productId, 'gtins'],
      queryFn: ({ signal }) => call(ROUTES.listProductGtins, { params: { productId }, signal }),
      meta: { topics: ['products'] },
    }),
  one: (productId: string) =>
    queryOptions({
      queryKey: ['products', productId],
      queryFn: ({ signal }) => call(ROUTES.getProduct, { params: { productId }, signal }),
      meta: { topics: ['products'] },
    }),
}
