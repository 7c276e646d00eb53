import { queryOptions } from '@tanstack/react-query'

export interface DemoPerson {
  readonly name: string
  readonly role: string
  readonly email: string
  readonly password: string
  readonly shop: string
}

/** Sign-ins of the demo chain; a server without demo data answers 404, and nothing is shown. */
export const demoQuery = () =>
  queryOptions({
    queryKey: ['demo'],
    queryFn: async ({ signal }): Promise<readonly DemoPerson[]> => {
      const response = await fetch('/v1/demo', { signal })
      if (!response.ok) return []
      const body = (await response.json()) as { people?: readonly DemoPerson[] }
      return body.people ?? []
    },
    retry: false,
    staleTime: Infinity,
  })
