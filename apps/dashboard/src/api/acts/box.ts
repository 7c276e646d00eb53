import { call, newKey } from '../client.ts'
import type { ROUTES } from '../contracts.ts'
import { ProblemError } from '../problem.ts'
import { t } from '../../lib/reader.ts'
import type { Act, NewAct } from './act.ts'
import { isOver, pressed, seen, sentAgain } from './queue.ts'
import { createExclusively } from './exclusively.ts'
import { openIdbStore } from './idb-store.ts'
import { createSender } from './sender.ts'
import { acts } from './state.ts'
import { createMemoryStore, type ActStore, type Changes } from './store.ts'

interface Work {
  readonly personId: string
  /** Sees to what an act has changed, or what has changed so that it was refused. */
  readonly onAnswered: (act: Act) => void
  /** The service wants a sign-in first. */
  readonly onSignedOut: () => void
}

export interface Box {
  /** Keeps a press: once this is done it outlasts the page. In the place of `replaces`, which was refused. */
  readonly press: (act: NewAct, replaces: string | undefined) => Promise<void>
  /** Resolves once the service has it. */
  readonly answered: (id: string) => Promise<Act>
  readonly again: (id: string) => Promise<void>
  readonly see: (id: string) => Promise<void>
  /** The network may be back: what rests is sent at once. */
  readonly nudge: () => Promise<void>
  /** Sends for whoever is signed in. @returns what ends that. */
  readonly work: (work: Work) => () => void
}

const OPENED_WITHIN_MS = 5_000

/** A browser that neither gives its store nor refuses it keeps nobody's press from being sent. */
async function openStore(): Promise<{ readonly store: ActStore; readonly isWhole: boolean }> {
  try {
    const late = new Promise<never>((_resolve, reject) =>
      setTimeout(() => reject(new Error('The store does not open')), OPENED_WITHIN_MS),
    )
    return { store: await Promise.race([openIdbStore(), late]), isWhole: true }
  } catch {
    // Without a store there is nothing in it: but one that does not open may hold something.
    return { store: createMemoryStore(), isWhole: typeof indexedDB === 'undefined' }
  }
}

export async function openBox(): Promise<Box> {
  const { store, isWhole } = await openStore()
  const channel =
    typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('clampclock.acts')
  const exclusively = createExclusively(store, newKey(), navigator.locks as LockManager | undefined)
  let work: Work | undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  let isPumping = false
  let isAskedAgain = false
  /** Acts that a part of this page waits for: it sees itself to what they change. */
  const awaited = new Set<string>()

  const refresh = async () => {
    try {
      acts.set({ items: await store.all(), isKnown: isWhole })
    } catch {
      // It was closed for a newer build, or taken away: what it holds by now nobody here knows.
      acts.set({ ...acts.get(), isKnown: false })
    }
  }
  const change = async (by: (items: readonly Act[]) => Changes) => {
    await store.change(by)
    await told()
  }
  async function told(): Promise<void> {
    await refresh()
    channel?.postMessage(null)
  }

  const sender = createSender({
    store,
    post,
    personId: () => work?.personId,
    nowMs: () => Date.now(),
    onStep: (answered) => {
      const isSeenTo = answered?.isSent === true && awaited.has(answered.act.id)
      if (answered !== undefined && !isSeenTo) work?.onAnswered(answered.act)
      void told()
    },
  })

  async function post(act: Act, signal: AbortSignal): Promise<void> {
    const { method, path, params, body, id: idempotencyKey, personId } = act
    // As it was pressed, also by a page of another build; what it was pressed for held it against the contract then.
    const route = { method, path } as (typeof ROUTES)['clampBond']
    const input = { params, body, idempotencyKey, signal, actingPersonId: personId }
    try {
      await call(route, input as unknown as Parameters<typeof call<typeof route>>[1])
    } catch (error) {
      if (error instanceof ProblemError && error.status === 401) work?.onSignedOut()
      throw error
    }
  }

  async function pump(): Promise<void> {
    if (work === undefined) return
    sender.poke()
    // It may be about to end, and then nobody is woken by that.
    isAskedAgain = isPumping
    if (isPumping) return
    isPumping = true
    clearTimeout(timer)
    let nextMs: number | undefined = Date.now() + 5_000
    try {
      await exclusively(async () => {
        nextMs = await sender.drain()
      })
    } catch {
      // The store failed: what waits is looked at again.
    }
    isPumping = false
    if (isAskedAgain) return pump()
    if (nextMs !== undefined)
      timer = setTimeout(() => void pump(), Math.min(Math.max(nextMs - Date.now(), 250), 60_000))
  }

  async function nudge(): Promise<void> {
    await change((items) => ({
      put: items
        .filter(({ state, dueMs }) => state === 'waiting' && dueMs > 0)
        .map((act) => ({ ...act, dueMs: 0 })),
    }))
    void pump()
  }

  channel?.addEventListener('message', () => {
    void refresh()
    void pump()
  })
  addEventListener('online', () => void nudge())
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void refresh().then(pump)
  })
  await store.change((items) => ({ remove: items.filter((act) => isOver(act, Date.now())) }))
  await refresh()

  return {
    press: async (act, replaces) => {
      await change((items) => ({
        add: [pressed(act)],
        put: replaces === undefined ? [] : seen(items, replaces),
      }))
      void pump()
    },
    answered: (id) =>
      new Promise((resolve, reject) => {
        const look = () => {
          const act = acts.get().items.find((item) => item.id === id)
          if (act === undefined || act.state === 'waiting') return
          stop()
          awaited.delete(id)
          if (act.state === 'sent') resolve(act)
          else reject(refusalOf(act))
        }
        const stop = acts.subscribe(look)
        awaited.add(id)
        look()
      }),
    again: async (id) => {
      await change((items) => ({ put: sentAgain(items, id) }))
      void pump()
    },
    see: (id) => change((items) => ({ put: seen(items, id) })),
    nudge,
    work: (next) => {
      work = next
      void nudge()
      return () => {
        if (work === next) work = undefined
      }
    },
  }
}

/** Why it is not in the record: the service's own answer, or that it was not sent after one that was refused. */
function refusalOf({ problem }: Act): Error {
  if (problem === null) return new Error(t('api.notSentAfterRefused'))
  const { code, status, message, reasons } = problem
  return new ProblemError(code, status, message, reasons)
}
