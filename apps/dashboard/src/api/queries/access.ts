import { ROUTES } from '../contracts.ts'
import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'

export const accessQueries = {
  me: () =>
    queryOptions({
      queryKey: ['me'],
      queryFn: ({ signal }) => call(ROUTES.me, { signal }),
      meta: { topics: ['people'] },
      staleTime: 60_000,
    }),
  sessions: () =>
    queryOptions({
      queryKey: ['sessions'],
      queryFn: ({ signal }) => call(ROUTES.listSessions, { signal }),
    }),
  people: () =>
    queryOptions({
      queryKey: ['people'],
      queryFn: ({ signal }) => call(ROUTES.listPeople, { signal }),
      meta: { topics: ['people'] },
    }),
  qualifications: () =>
    queryOptions({
      queryKey: ['qualifications'],
      queryFn: ({ signal }) => call(ROUTES.listQualifications, { signal }),
      meta: { topics: ['people'] },
    }),
  tokens: () =>
    queryOptions({
      queryKey: ['accessTokens'],
      queryFn: ({ signal }) => call(ROUTES.listAccessTokens, { signal }),
      meta: { topics: ['people'] },
    }),
}
