import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call, type InputOf } from '../client.ts'

export type Wish = InputOf<typeof ROUTES.helpBond>['body']

export const bondQueries = {
  /** Drawn anew when anything happens to the bond, and when the air that its forecast rests on is measured. */
  curve: (bondId: string, shopId: string) =>
    queryOptions({
      queryKey: ['bonds', bondId, 'curve'],
      queryFn: ({ signal }) => call(ROUTES.getBondCurve, { params: { bondId }, query: {}, signal }),
      meta: { topics: ['bonds', 'temperature'], shopId },
    }),
  /** Asked again when anything happens to the bond or its air: nothing is recorded by asking. */
  help: (bondId: string, shopId: string, wish: Wish) =>
    queryOptions({
      queryKey: ['bonds', bondId, 'help', wish],
      queryFn: ({ signal }) => call(ROUTES.helpBond, { params: { bondId }, body: wish, signal }),
      meta: { topics: ['bonds', 'temperature'], shopId },
    }),
  photo: (inspectionId: string) =>
    queryOptions({
      queryKey: ['inspections', inspectionId, 'photo'],
      queryFn: ({ signal }) => call(ROUTES.getInspectionPhoto, { params: { inspectionId }, signal }),
      staleTime: Infinity,
    }),
  inspectors: (incidentId: string) =>
    queryOptions({
      queryKey: ['incidents', incidentId, 'inspectors'],
      queryFn: ({ signal }) => call(ROUTES.listInspectors, { params: { incidentId }, signal }),
      meta: { topics: ['people'] },
    }),
  record: (bondId: string) =>
    queryOptions({
      queryKey: ['bonds', bondId, 'record'],
      queryFn: ({ signal }) => call(ROUTES.getBondRecord, { params: { bondId }, signal }),
      meta: { topics: ['bonds', 'temperature', 'attachments'] },
    }),
}
