import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const temperatureQueries = {
  sensors: (shopId: string) =>
    queryOptions({
      queryKey: ['sensors', shopId],
      queryFn: ({ signal }) => call(ROUTES.listSensors, { params: { shopId }, signal }),
      meta: { topics: ['temperature', 'shops'], shopId },
    }),
  readings: (sensorId: string, shopId: string, onlyDoubtful: boolean) =>
    queryOptions({
      queryKey: ['sensorReadings', sensorId, onlyDoubtful],
      queryFn: ({ signal }) =>
        call(ROUTES.listSensorReadings, {
          params: { sensorId },
          query: { doubtful: onlyDoubtful ? 'true' : 'false', limit: 60 },
          signal,
        }),
      meta: { topics: ['temperature'], shopId },
    }),
  decisions: (sensorId: string, shopId: string) =>
    queryOptions({
      queryKey: ['sensorDecisions', sensorId],
      queryFn: ({ signal }) => call(ROUTES.listSensorDecisions, { params: { sensorId }, signal }),
      meta: { topics: ['temperature'], shopId },
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
