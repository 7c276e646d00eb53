import type { LiveEvent, LiveTopic } from '@clampclock/contracts'
import { LIVE_ALIVE_MS, LIVE_EVENT_NAMES, LIVE_PATH } from './contracts.ts'
import type { Query, QueryClient } from '@tanstack/react-query'

declare module '@tanstack/react-query' {
  interface Register {
    queryMeta: {
      /** The query is asked again when one of these topics changes. */
      topics?: readonly LiveTopic[]
      /** Set when the query shows one shop only: changes elsewhere leave it alone. */
      shopId?: string | undefined
    }
  }
}

export type LiveState = 'connecting' | 'live' | 'reconnecting' | 'lost'

/** Topics that changed, each with the shops it changed in; null: anywhere. */
export type Changes = ReadonlyMap<LiveTopic, ReadonlySet<string> | null>

/** Whether a query must be asked again after these changes. */
export function concerns(changes: Changes, meta: Query['meta']): boolean {
  return (meta?.topics ?? []).some((topic) => {
    const shops = changes.get(topic)
    if (shops === undefined) return false
    return shops === null || meta?.shopId === undefined || shops.has(meta.shopId)
  })
}

export function invalidateTopics(client: QueryClient, changes: Changes): Promise<void> {
  return client.invalidateQueries({ predicate: (query) => concerns(changes, query.meta) })
}

/** Adds one event to what is to be told; an event without a shop concerns all of them. */
export function withEvent(changes: Changes, event: LiveEvent): Changes {
  const known = changes.get(event.topic)
  const shops = event.shopId === null || known === null ? null : new Set([...(known ?? []), event.shopId])
  return new Map([...changes, [event.topic, shops]])
}

interface Listener {
  readonly onState: (state: LiveState) => void
  readonly onChanges: (changes: Changes) => void
  /** Events may have been missed: everything is asked again. */
  readonly onGap: () => void
}

/** A burst of events leads to one round of questions. */
const COALESCE_MS = 300

/** A stream that is silent for so long is dead, though neither end was told: one late sign of life is no reason. */
const SILENT_MS = 2.5 * LIVE_ALIVE_MS

/** Opens the one stream of this page, and a new one in place of one that fell silent. @returns what closes it. */
export function listen({ onState, onChanges, onGap }: Listener): () => void {
  let changes: Changes = new Map()
  let timer: ReturnType<typeof setTimeout> | undefined
  let silence: ReturnType<typeof setTimeout> | undefined
  let gap = false
  let source = open()

  function open(): EventSource {
    const opened = new EventSource(LIVE_PATH)
    heard()
    opened.addEventListener('open', () => {
      heard()
      onState('live')
      if (gap) onGap()
      gap = false
    })
    opened.addEventListener('error', () => {
      gap = true
      // A stream that was refused (signed out, server gone for good) is closed and never tries again by itself.
      const isOver = opened.readyState === EventSource.CLOSED
      if (isOver) clearTimeout(silence)
      onState(isOver ? 'lost' : 'reconnecting')
    })
    opened.addEventListener(LIVE_EVENT_NAMES.alive, heard)
    opened.addEventListener(LIVE_EVENT_NAMES.gap, onGap)
    opened.addEventListener(LIVE_EVENT_NAMES.change, (message: MessageEvent<string>) => {
      heard()
      const event = readEvent(message.data)
      if (event === undefined) return
      changes = withEvent(changes, event)
      timer ??= setTimeout(() => {
        onChanges(changes)
        changes = new Map()
        timer = undefined
      }, COALESCE_MS)
    })
    return opened
  }

  function heard(): void {
    clearTimeout(silence)
    silence = setTimeout(() => {
      gap = true
      source.close()
      onState('reconnecting')
      source = open()
    }, SILENT_MS)
  }

  return () => {
    clearTimeout(timer)
    clearTimeout(silence)
    source.close()
  }
}

/** Undefined for what is no event of ours, such as one of a newer server. */
export function readEvent(text: string): LiveEvent | undefined {
  try {
    const value = JSON.parse(text) as Partial<LiveEvent>
    return typeof value.topic === 'string'
      ? { shopId: null, id: null, ...value, topic: value.topic }
      : undefined
  } catch {
    return undefined
  }
}
