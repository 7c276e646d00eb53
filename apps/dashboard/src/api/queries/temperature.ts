import { ROUTES } from '@clampclock/contracts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const temperatureQueries = {
  sensors: (shopId: string) =>
    queryOptions({
      queryKey: ['sensors', shopId],
      queryFn: ({ signal }) => call(ROUTES.listSensors, { params: { shopId }, signal }),
      meta: { topics: ['temperature', 'shops'], shopId },
    }),
  bay: (resourceId: string, shopId: string, hoursBack = 12, hoursAhead = 12) =>
    queryOptions({
      queryKey: ['bayTemperature', resourceId, hoursBack, hoursAhead],
      queryFn: ({ signal }) =>
        call(ROUTES.getBayTemperature, { params: { resourceId }, query: { hoursBack, hoursAhead }, signal }),
      meta: { topics: ['temperature'], shopId },
      staleTime: 60_000,
    }),
}
