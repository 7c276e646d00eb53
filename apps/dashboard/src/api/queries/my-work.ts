import { queryOptions } from '@tanstack/react-query'
import { call } from '../client.ts'
import { ROUTES } from '../contracts.ts'

/** What I am on and what comes next: whatever a plan, a bond or an operation changes there changes this. */
export const myWorkQuery = queryOptions({
  queryKey: ['myWork'],
  queryFn: ({ signal }) => call(ROUTES.getMyWork, { signal }),
  meta: { topics: ['bonds', 'bookings', 'plans', 'repairs', 'temperature'] },
  // A task's time comes by the clock alone, and no event tells of that; nor may the clock of a bond grow old.
  refetchInterval: 25_000,
})
