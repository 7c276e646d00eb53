import type { Kept } from '../lib/kept.ts'
import { newKey } from './client.ts'
import { isWorthRetrying, ProblemError, UnreachableError } from './problem.ts'
import { t } from '../lib/reader.ts'

/** Something that a person did, on its way to the service. Its id is its Idempotency-Key, however often it is sent. */
export interface Outgoing<Payload> {
  readonly id: string
  readonly payload: Payload
  readonly state: 'waiting' | 'sending' | 'refused'
  /** Why the service refused it; null otherwise. */
  readonly reason: string | null
  /** How often no answer came. */
  readonly tries: number
}

export interface Outgoings<Payload> {
  /** In the order in which they came; what has been sent is gone from here. */
  readonly items: readonly Outgoing<Payload>[]
  readonly sent: number
}

export const NOTHING_OUTGOING = { items: [], sent: 0 } as const

export interface Outbox<Payload> {
  readonly add: (payload: Payload) => void
  /** A refused one, once somebody has seen why. */
  readonly dismiss: (id: string) => void
  /** Counts what is sent from 0 again. */
  readonly startOver: () => void
  /** Takes up what a page that was reloaded had not finished. */
  readonly resume: () => void
}

/** What will never go, whatever the network does: thrown by who sends. */
export class Refusal extends Error {}

interface Options<Payload> {
  readonly kept: Kept<Outgoings<Payload>>
  /** Must do the same once, however often it is called with one item. */
  readonly send: (item: Outgoing<Payload>, signal: AbortSignal) => Promise<void>
}

/** A scan or two may be slow, and the rest need not wait for them. */
const AT_ONCE = 3
const ANSWER_WITHIN_MS = 20_000
const FIRST_PAUSE_MS = 1_000
const LONGEST_PAUSE_MS = 15_000

/**
 * Sends each thing once, in order, and keeps it until the service has answered: what gets no answer is sent again as it
 * was, what is refused stays with its reason, and neither keeps the others from going.
 */
export function createOutbox<Payload>({ kept, send }: Options<Payload>): Outbox<Payload> {
  /** In this page's hands: being sent, or waiting for another try. */
  const busy = new Set<string>()
  const resting = new Set<string>()

  const change = (id: string, part: Partial<Outgoing<Payload>>) =>
    kept.set((old) => ({
      ...old,
      items: old.items.map((item) => (item.id === id ? { ...item, ...part } : item)),
    }))

  function pump(): void {
    while (busy.size < AT_ONCE) {
      const next = kept
        .get()
        .items.find(({ id, state }) => state !== 'refused' && !busy.has(id) && !resting.has(id))
      if (next === undefined) return
      busy.add(next.id)
      change(next.id, { state: 'sending' })
      void attempt(next)
    }
  }

  async function attempt(item: Outgoing<Payload>): Promise<void> {
    try {
      await send(item, AbortSignal.timeout(ANSWER_WITHIN_MS))
      kept.set(({ items, sent }) => ({ items: items.filter(({ id }) => id !== item.id), sent: sent + 1 }))
      // The service answers again: nobody waits any longer.
      resting.clear()
    } catch (error) {
      if (mayStillGo(error)) rest(item)
      else
        change(item.id, {
          state: 'refused',
          reason: error instanceof Error ? error.message : t('api.itCouldNotBeSent'),
        })
    }
    busy.delete(item.id)
    pump()
  }

  function rest({ id, tries }: Outgoing<Payload>): void {
    change(id, { state: 'waiting', tries: tries + 1 })
    resting.add(id)
    setTimeout(
      () => {
        resting.delete(id)
        pump()
      },
      Math.min(FIRST_PAUSE_MS * 2 ** tries, LONGEST_PAUSE_MS),
    )
  }

  return {
    add: (payload) => {
      const item = { id: newKey(), payload, state: 'waiting', reason: null, tries: 0 } as const
      kept.set((old) => ({ ...old, items: [...old.items, item] }))
      pump()
    },
    dismiss: (id) => {
      kept.set((old) => ({
        ...old,
        items: old.items.filter((item) => item.id !== id || item.state !== 'refused'),
      }))
    },
    startOver: () => kept.set((old) => ({ ...old, sent: 0 })),
    resume: pump,
  }
}

/** No answer, an answer that says 'not now', or a sign-in that ran out: the same may go when it is sent again. */
export function mayStillGo(error: unknown): boolean {
  if (error instanceof UnreachableError || isWorthRetrying(error)) return true
  if (error instanceof ProblemError)
    return (
      [401, 408, 429].includes(error.status) ||
      ['key-in-use', 'changed-meanwhile', 'password-temporary'].includes(error.code)
    )
  return error instanceof DOMException && (error.name === 'TimeoutError' || error.name === 'AbortError')
}
