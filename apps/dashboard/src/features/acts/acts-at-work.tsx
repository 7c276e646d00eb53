import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { theBox } from '../../api/acts/the-box.ts'
import { invalidateTopics } from '../../api/live.ts'
import { useMe } from '../../api/use-me.ts'
import { setSessionOver } from '../../lib/session.ts'

/** Sends what this person has pressed on this device, on whichever screen he is. */
export function ActsAtWork({ isLive }: { readonly isLive: boolean }) {
  const client = useQueryClient()
  const personId = useMe().id
  useEffect(() => {
    let end: (() => void) | undefined
    let isGone = false
    const begin = async () => {
      const box = await theBox()
      if (isGone) return
      end = box.work({
        personId,
        onAnswered: ({ topics }) =>
          void invalidateTopics(client, new Map(topics.map((topic) => [topic, null]))),
        onSignedOut: () => setSessionOver(true),
      })
    }
    // Without it nothing is told of a joint, and a press says that it was not kept.
    void begin().catch(() => undefined)
    return () => {
      isGone = true
      end?.()
    }
  }, [client, personId])
  useEffect(() => {
    // The service is there again: nobody waits for the next try.
    if (isLive)
      void theBox().then(
        ({ nudge }) => nudge(),
        () => undefined,
      )
  }, [isLive])
  return null
}
