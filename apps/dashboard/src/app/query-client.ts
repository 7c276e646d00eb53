import { MutationCache, QueryCache, QueryClient } from '@tanstack/react-query'
import { isProblem, waitBeforeAsking } from '../api/problem.ts'
import { setSessionOver } from '../lib/session.ts'

export function createQueryClient(): QueryClient {
  const client: QueryClient = new QueryClient({
    queryCache: new QueryCache({ onError: noteSignedOut }),
    mutationCache: new MutationCache({ onError: noteSignedOut }),
    defaultOptions: {
      queries: {
        staleTime: 15_000,
        retry: (failures, error) => waitBeforeAsking(failures, error) !== undefined,
        retryDelay: (failures, error) => waitBeforeAsking(failures, error) ?? 0,
        // A shop's network may have no way to the internet and still reach the service.
        networkMode: 'always',
      },
      mutations: { networkMode: 'always' },
    },
  })
  return client

  function noteSignedOut(error: Error) {
    const wasSignedIn = client.getQueryData(['me']) !== undefined
    if (wasSignedIn && isProblem(error, 'not-signed-in')) setSessionOver(true)
  }
}
