import { ROUTES } from '../contracts.ts'
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import { call, type InputOf } from '../client.ts'
import { byCursor } from '../pages.ts'

type AlertQuery = NonNullable<InputOf<typeof ROUTES.listAlerts>['query']>
export type AlertKind = NonNullable<AlertQuery['kind']>

export interface AlertFilter {
  readonly shopId?: string | undefined
  readonly kind?: AlertKind | undefined
  readonly open?: 'true' | 'false' | undefined
  readonly mine?: 'true' | undefined
  readonly snoozed?: 'true' | undefined
}

export const alertQueries = {
  list: (filter: AlertFilter) =>
    infiniteQueryOptions({
      queryKey: ['alerts', filter],
      queryFn: ({ signal, pageParam }) =>
        call(ROUTES.listAlerts, { query: { ...filter, limit: 100, cursor: pageParam }, signal }),
      ...byCursor,
      meta: { topics: ['alerts'], shopId: filter.shopId },
    }),
  webhooks: () =>
    queryOptions({
      queryKey: ['webhooks'],
      queryFn: ({ signal }) => call(ROUTES.listWebhooks, { signal }),
      meta: { topics: ['alerts'] },
    }),
  deliveries: (webhookId: string) =>
    queryOptions({
      queryKey: ['webhooks', webhookId, 'deliveries'],
      queryFn: ({ signal }) => call(ROUTES.listDeliveries, { params: { webhookId }, signal }),
      refetchInterval: 5_000,
    }),
  digest: () =>
    queryOptions({
      queryKey: ['digest'],
      queryFn: ({ signal }) => call(ROUTES.getDigest, { signal }),
      meta: { topics: ['people'] },
    }),
  overview: () =>
    queryOptions({
      queryKey: ['overview'],
      queryFn: ({ signal }) => call(ROUTES.getOverview, { signal }),
      meta: { topics: ['stock', 'bonds', 'bookings', 'alerts', 'shops', 'repairs'] },
      refetchInterval: 60_000,
    }),
}
