import { ROUTES } from '@clampclock/contracts'
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query'
import { call, type InputOf } from '../client.ts'
import { byCursor } from '../pages.ts'

type AlertQuery = NonNullable<InputOf<typeof ROUTES.listAlerts>['query']>
export type AlertKind = NonNullable<AlertQuery['kind']>

export interface AlertFilter {
  readonly shopId?: string | undefined
  readonly kind?: AlertKind | undefined
  readonly open?: 'true' | 'false' | undefined
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
  overview: () =>
    queryOptions({
      queryKey: ['overview'],
      queryFn: ({ signal }) => call(ROUTES.getOverview, { signal }),
      meta: { topics: ['stock', 'bonds', 'bookings', 'alerts', 'shops', 'repairs'] },
      refetchInterval: 60_000,
    }),
}
