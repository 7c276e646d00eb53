import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { createKept, type Store } from '../lib/kept.ts'
import {
  createOutbox,
  mayStillGo,
  NOTHING_OUTGOING,
  Refusal,
  type Outgoing,
  type Outgoings,
} from './outbox.ts'
import { ProblemError, UnreachableError } from './problem.ts'

function createStore(): Store {
  const held = new Map<string, string>()
  return {
    getItem: (key) => held.get(key) ?? null,
    setItem: (key, value) => void held.set(key, value),
    removeItem: (key) => void held.delete(key),
  }
}
const keptIn = (store: Store) => createKept<Outgoings<string>>('box', NOTHING_OUTGOING, store)
type Fate = 'answered' | 'lost before' | 'lost after' | 'refused' | 'fault'

/** A service that does a thing once for a key, on a network that drops requests and answers. */
function createService(fates: readonly Fate[]) {
  const done = new Map<string, string>()
  const sent: string[] = []
  let asked = 0
  /** Under way: whoever sends the same key meanwhile is told so, as the real one does. */
  const working = new Set<string>()
  const send = async ({ id, payload }: Outgoing<string>) => {
    const fate = fates[asked] ?? 'answered'
    asked += 1
    sent.push(payload)
    if (working.has(id)) throw new ProblemError('key-in-use', 409, 'It is being done', [])
    working.add(id)
    try {
      await new Promise((resolve) => setTimeout(resolve, 10 + (asked % 7) * 30))
      if (fate === 'lost before') throw new UnreachableError(undefined)
      if (fate === 'fault') throw new ProblemError('internal', 500, 'Something went wrong here', [])
      if (fate === 'refused' && !done.has(id)) throw new ProblemError('not-found', 404, 'No such label', [])
      done.set(id, payload)
      if (fate === 'lost after') throw new UnreachableError(undefined)
    } finally {
      working.delete(id)
    }
  }
  return { send, done, sent }
}

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

describe('the outbox', () => {
  it('does each thing once or keeps why not, whatever is lost, refused or reloaded on the way', async () => {
    const fate = fc.constantFrom<Fate>('answered', 'lost before', 'lost after', 'refused', 'fault')
    await fc.assert(
      fc.asyncProperty(
        fc.array(fate, { maxLength: 30 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 0, max: 3000 }),
        async (fates, count, reloadAfterMs) => {
          const store = createStore()
          const { send, done } = createService(fates)
          const wanted = Array.from({ length: count }, (_, i) => `scan ${i}`)
          let isGone = false
          const silence = new Promise<void>(() => {})
          const first = createOutbox({
            kept: keptIn(store),
            // A page that was reloaded sends no more, and hears of nothing more.
            send: async (item) => {
              if (isGone) await silence
              await send(item)
              if (isGone) await silence
            },
          })
          for (const payload of wanted) first.add(payload)
          await vi.advanceTimersByTimeAsync(reloadAfterMs)
          const left = store.getItem('box')
          isGone = true
          const after = createStore()
          if (left !== null) after.setItem('box', left)
          const kept = keptIn(after)
          createOutbox({ kept, send }).resume()
          await vi.advanceTimersByTimeAsync(3_600_000)
          const { items, sent } = kept.get()
          expect(items.every(({ state, reason }) => state === 'refused' && reason === 'No such label')).toBe(
            true,
          )
          expect(sent + items.length).toBe(count)
          const told = [...done.values(), ...items.map(({ payload }) => payload)]
          expect(told.toSorted()).toEqual(wanted.toSorted())
        },
      ),
      { numRuns: 60 },
    )
  })

  it('lets the others go while one gets no answer, and goes on with it as it was', async () => {
    const kept = keptIn(createStore())
    const ids: string[] = []
    const outbox = createOutbox<string>({
      kept,
      send: async ({ id, payload, tries }) => {
        if (payload !== 'third') return
        ids.push(id)
        if (tries < 6) throw new UnreachableError(undefined)
      },
    })
    for (const payload of ['first', 'second', 'third', 'fourth', 'fifth']) outbox.add(payload)
    await vi.advanceTimersByTimeAsync(100)
    expect(kept.get()).toMatchObject({ sent: 4, items: [{ payload: 'third', state: 'waiting' }] })
    await vi.advanceTimersByTimeAsync(200_000)
    expect(kept.get()).toEqual({ sent: 5, items: [] })
    expect(ids).toHaveLength(7)
    expect(new Set(ids).size).toBe(1)
  })

  it('keeps what was refused until it is dismissed, and drops nothing that may still go', async () => {
    const kept = keptIn(createStore())
    const outbox = createOutbox<string>({
      kept,
      send: async ({ payload }) => {
        throw payload === 'bad' ? new Refusal('Not ours') : new UnreachableError(undefined)
      },
    })
    outbox.add('bad')
    outbox.add('good')
    await vi.advanceTimersByTimeAsync(50)
    const [bad, good] = kept.get().items
    expect(bad).toMatchObject({ state: 'refused', reason: 'Not ours' })
    outbox.dismiss(good!.id)
    outbox.dismiss(bad!.id)
    expect(kept.get().items.map(({ payload }) => payload)).toEqual(['good'])
  })
})

it('takes for final what the service has answered, and for nothing else', () => {
  const problem = (
    code: 'wrong-state' | 'not-signed-in' | 'too-many-requests' | 'key-in-use',
    status: number,
  ) => new ProblemError(code, status, 'No', [])
  expect(mayStillGo(problem('wrong-state', 409))).toBe(false)
  expect(mayStillGo(problem('key-in-use', 409))).toBe(true)
  expect(mayStillGo(problem('not-signed-in', 401))).toBe(true)
  expect(mayStillGo(problem('too-many-requests', 429))).toBe(true)
  expect(mayStillGo(new DOMException('late', 'TimeoutError'))).toBe(true)
  expect(mayStillGo(new TypeError('a mistake of ours'))).toBe(false)
})
