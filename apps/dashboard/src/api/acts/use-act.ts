import type { LiveTopic } from '@clampclock/contracts'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useEffect, useRef, useState } from 'react'
import { happenedNow, newKey, type InputOf } from '../client.ts'
import { ROUTES } from '../contracts.ts'
import { invalidateTopics } from '../live.ts'
import { useMe } from '../use-me.ts'
import type { Act, ActAbout, ActKind } from './act.ts'
import { useActs } from './state.ts'
import { theBox } from './the-box.ts'
import { isKept } from './task.ts'
import { t } from '../../lib/reader.ts'

type RouteOf<K extends ActKind> = (typeof ROUTES)[K]
type Input<K extends ActKind> = InputOf<RouteOf<K>>

interface Options<K extends ActKind> {
  readonly about: ActAbout
  /** What the act changes: whatever shows it asks again at once, without waiting for the live event. */
  readonly topics: readonly LiveTopic[]
  /** What can be done but once, such as the clamping of this bond: one that waits is taken up, and not pressed again. */
  readonly once?: Input<K>['params']
  /** Whether what becomes of one that was taken up is told here as well; else it stands in the list alone. */
  readonly tellsOfLeft?: boolean
  /** The service has it, and whoever pressed is still there. */
  readonly onDone?: () => void
  /** No answer came, and whoever pressed is still there: it is kept, and goes by itself. */
  readonly onKept?: () => void
}

interface Pressing<K extends ActKind> {
  readonly input?: Input<K>
  /** An act that waits already, from before a reload or from another tab. */
  readonly id?: string
}

/** A slow answer keeps nobody from going on; what it would change says that it is being asked for. */
const LONGEST_WAIT_MS = 4_000

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/**
 * One act of a person on a bond: kept on the device first, then sent until the service has answered, whatever becomes of
 * this page. A refusal is the error here while somebody is there to see it, and a task of the day until it was seen.
 */
export function useAct<K extends ActKind>(
  kind: K,
  { about, topics, once, tellsOfLeft = false, onDone, onKept }: Options<K>,
) {
  const client = useQueryClient()
  const personId = useMe().id
  const { items } = useActs()
  const isHere = useRef(true)
  const [current, setCurrent] = useState<string>()
  /** The act that this part of the page is about, and the one that it shows the refusal of. */
  const mine = useRef<string>(undefined)
  const refused = useRef<string>(undefined)

  const press = useMutation({
    mutationFn: async ({ input, id = newKey() }: Pressing<K>) => {
      const box = await opened()
      if (input !== undefined)
        await box.press(actOf(id, input), refused.current).catch(() => {
          throw new Error(t('api.notKept'))
        })
      mine.current = id
      refused.current = undefined
      setCurrent(id)
      try {
        await box.answered(id)
      } catch (error) {
        if (input === undefined && !tellsOfLeft) return
        if (isHere.current && mine.current === id) refused.current = id
        throw error
      }
    },
    // What the act changed is asked for before the screen changes: nobody is shown what was true before it.
    onSuccess: async () => {
      const changes = new Map(topics.map((topic) => [topic, null]))
      await Promise.race([invalidateTopics(client, changes), pause(LONGEST_WAIT_MS)])
      if (isHere.current) onDone?.()
    },
  })

  function actOf(id: string, input: Input<K>) {
    const { method, path } = ROUTES[kind]
    const body = { ...(input.body as object | undefined) } as { at?: string; appliedAt?: string }
    return {
      id,
      personId,
      kind,
      method: method as 'POST',
      path,
      params: input.params as Record<string, string>,
      body,
      at: body.at ?? body.appliedAt ?? happenedNow(),
      about,
      topics,
    }
  }

  const own = items.filter((act) => act.personId === personId)
  const act = own.find(({ id }) => id === current)
  const waiting = press.isPending && act !== undefined && isKept(act, items) ? act : undefined
  const isWaiting = waiting !== undefined
  const left =
    once === undefined
      ? undefined
      : own.find((each) => each.state === 'waiting' && each.kind === kind && isSame(each, once))?.id

  useEffect(() => {
    isHere.current = true
    return () => {
      isHere.current = false
    }
  }, [])
  useEffect(() => {
    if (left !== undefined && press.isIdle) press.mutate({ id: left })
  })
  useEffect(() => {
    if (!isWaiting) return
    onKept?.()
    if (once !== undefined) return
    // Let go: the next press is another act, and what becomes of this one stands in the list.
    mine.current = undefined
    press.reset()
    // oxlint-disable-next-line react/exhaustive-deps -- told once for each act
  }, [isWaiting])

  return {
    mutate: (input: Input<K>, { onError }: { readonly onError?: (error: Error) => void } = {}) => {
      // It is one act, however often it is pressed: the same is sent, and at once.
      if (press.isPending) void theBox().then(({ nudge }) => nudge())
      else press.mutate({ input }, onError === undefined ? {} : { onError })
    },
    reset: () => {
      const id = refused.current
      refused.current = undefined
      if (id !== undefined) void theBox().then(({ see }) => see(id))
      press.reset()
    },
    isPending: press.isPending,
    isIdle: press.isIdle,
    isError: press.isError,
    isSuccess: press.isSuccess,
    error: press.error,
    variables: press.variables?.input,
    /** It is kept and has no answer yet: it goes by itself. */
    waiting,
  }
}

async function opened() {
  try {
    return await theBox()
  } catch {
    throw new Error(t('api.notKept'))
  }
}

function isSame({ params }: Act, wanted: object): boolean {
  return JSON.stringify(params) === JSON.stringify(wanted)
}
