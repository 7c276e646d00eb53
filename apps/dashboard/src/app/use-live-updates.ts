import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { invalidateTopics, listen, type LiveState } from '../api/live.ts'

/** Keeps every screen current by one stream. `retry` opens a new one after it was lost for good. */
export function useLiveUpdates(): { readonly state: LiveState; readonly retry: () => void } {
  const client = useQueryClient()
  const [state, setState] = useState<LiveState>('connecting')
  const [attempt, setAttempt] = useState(0)
  useEffect(
    () =>
      listen({
        onState: setState,
        onChanges: (changes) => void invalidateTopics(client, changes),
        onGap: () => void client.invalidateQueries(),
      }),
    [client, attempt],
  )
  const retry = () => {
    setState('connecting')
    setAttempt((count) => count + 1)
    void client.invalidateQueries()
  }
  return { state, retry }
}
