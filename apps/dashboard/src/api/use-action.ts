import type { LiveTopic, RouteContract, WireResultOf } from '@clampclock/contracts'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { createActionKey } from './action-key.ts'
import { call, type InputOf } from './client.ts'
import { invalidateTopics } from './live.ts'

interface Options<C extends RouteContract> {
  /** What the action changes: whatever shows it asks again at once, without waiting for the live event. */
  readonly topics: readonly LiveTopic[]
  readonly onDone?: (result: WireResultOf<C>) => void
}

/** A slow answer keeps nobody from going on; what it would change says that it is being asked for. */
const LONGEST_WAIT_MS = 4_000

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/** One action of a person: sent once however often it is tried, its answer shown everywhere. */
export function useAction<C extends RouteContract>(route: C, { topics, onDone }: Options<C>) {
  const client = useQueryClient()
  const [actionKey] = useState(createActionKey)
  return useMutation({
    mutationFn: (input: InputOf<C>) => call(route, { ...input, idempotencyKey: actionKey.keyFor(input) }),
    // What the act changed is asked for before the screen changes: nobody is shown what was true before it.
    onSuccess: async (result) => {
      const changes = new Map(topics.map((topic) => [topic, null]))
      await Promise.race([invalidateTopics(client, changes), pause(LONGEST_WAIT_MS)])
      onDone?.(result)
    },
    onSettled: (_result, error) => {
      actionKey.settled(error)
    },
  })
}
