import { useQueryClient, type QueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { isProblem, UnreachableError } from './problem.ts'
import { accessQueries } from './queries/access.ts'
import { createOutbox, NOTHING_OUTGOING, type Outbox, type Outgoing, type Outgoings } from './outbox.ts'
import { keptIn, useKept } from '../lib/kept.ts'
import { setSessionOver } from '../lib/session.ts'
import { useMe } from './use-me.ts'

/** Goes on sending when its screen was left: one for a name and a person, as long as the page lives. */
const known = new Map<string, unknown>()

type Send<Payload> = (item: Outgoing<Payload>, signal: AbortSignal) => Promise<void>

/** The outbox of that name. `send` must depend on nothing that the name does not say: that of the first call is kept. */
export function useOutbox<Payload>(name: string, send: Send<Payload>): Outbox<Payload> & Outgoings<Payload> {
  const { id } = useMe()
  const client = useQueryClient()
  const key = `clampclock.outbox.${id}.${name}`
  const kept = keptIn<Outgoings<Payload>>(key, NOTHING_OUTGOING)
  const [outbox] = useState(() =>
    outboxOf(key, () => createOutbox({ kept, send: asPerson(client, id, send) })),
  )
  const view = useKept(kept)
  useEffect(() => outbox.resume(), [outbox])
  return { ...outbox, ...view }
}

function outboxOf<Payload>(key: string, make: () => Outbox<Payload>): Outbox<Payload> {
  const there = known.get(key) as Outbox<Payload> | undefined
  if (there !== undefined) return there
  const made = make()
  known.set(key, made)
  return made
}

/**
 * A sign-in that ran out is asked for over the screen, and what waits goes on after it: but never in the name of somebody
 * else who signed in there.
 */
function asPerson<Payload>(client: QueryClient, personId: string, send: Send<Payload>): Send<Payload> {
  return async (item, signal) => {
    if (client.getQueryData(accessQueries.me().queryKey)?.id !== personId)
      throw new UnreachableError('somebody else has signed in')
    try {
      await send(item, signal)
    } catch (error) {
      if (error instanceof Error && isProblem(error, 'not-signed-in')) setSessionOver(true)
      throw error
    }
  }
}
