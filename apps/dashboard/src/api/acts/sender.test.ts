import 'fake-indexeddb/auto'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ProblemError, UnreachableError } from '../problem.ts'
import type { Act, NewAct } from './act.ts'
import { pressed, sentAgain } from './queue.ts'
import { openIdbStore } from './idb-store.ts'
import { createSender, type Sender } from './sender.ts'
import { createMemoryStore, type ActStore } from './store.ts'

type Fate = 'answered' | 'lost before' | 'lost after' | 'refused' | 'fault' | 'busy' | 'signed out'

interface Press {
  readonly joint: number
  readonly person: number
  /** After how many requests of the service it is pressed. */
  readonly after: number
}

let count = 0
const freshStore = () => openIdbStore(`test ${++count}`)

function newAct({ joint, person }: Press, at: number): NewAct {
  return {
    id: `key ${at}`,
    personId: `person ${person}`,
    kind: 'addPanelReading',
    method: 'POST',
    path: '/v1/bonds/:bondId/readings',
    params: { bondId: `bond ${joint}` },
    body: { temperatureC: 20 + at },
    at: new Date(at * 1000).toISOString(),
    about: {
      shopId: 'shop',
      repairOrderId: 'order',
      repairOrderNumber: 'R1',
      vehicle: 'Invented car',
      jointId: `joint ${joint}`,
      jointName: 'Sill',
    },
    topics: ['bonds'],
  }
}

/** A service that does a thing once for a key, on a network that drops requests and answers. */
function createService(fates: readonly Fate[]) {
  const done: Act[] = []
  let asked = 0
  return {
    done,
    post: async (act: Act) => {
      const fate = fates[asked] ?? 'answered'
      asked += 1
      await Promise.resolve()
      if (fate === 'lost before') throw new UnreachableError(undefined)
      if (fate === 'fault') throw new ProblemError('internal', 500, 'Something went wrong here', [])
      if (fate === 'busy') throw new ProblemError('too-many-requests', 429, 'Later', [], 2_000)
      if (fate === 'signed out') throw new ProblemError('not-signed-in', 401, 'Sign in', [])
      const isDone = done.some(({ id }) => id === act.id)
      if (fate === 'refused' && !isDone) throw new ProblemError('wrong-state', 409, 'Not so', [])
      if (!isDone) done.push(act)
      if (fate === 'lost after') throw new UnreachableError(undefined)
    },
  }
}

/** Tabs over one store; time passes whenever there is nothing else to do. */
function createDevice(store: ActStore, service: ReturnType<typeof createService>) {
  let ms = 1_000_000
  const open = (person: () => string | undefined) => {
    let isKilled = false
    const sender: Sender = createSender({
      store,
      personId: person,
      nowMs: () => ms,
      onStep: () => undefined,
      // A tab that is killed hears of no answer.
      post: async (act) => {
        const never = new Promise<never>(() => undefined)
        if (isKilled) return never
        try {
          await service.post(act)
        } finally {
          if (isKilled) await never
        }
      },
    })
    return { sender, kill: () => (isKilled = true) }
  }
  const finish = async (sender: Sender) => {
    for (let next = await sender.drain(); next !== undefined; next = await sender.drain())
      ms = Math.max(ms + 1, next)
  }
  return { open, finish }
}

const fate = fc.constantFrom<Fate>(
  'answered',
  'lost before',
  'lost after',
  'refused',
  'fault',
  'busy',
  'signed out',
)
const press = fc.record({
  joint: fc.integer({ min: 1, max: 3 }),
  person: fc.constant(1),
  after: fc.integer({ min: 0, max: 6 }),
})

const inOrder = (acts: readonly Act[], joint: string) =>
  acts.filter(({ about }) => about.jointId === joint).map(({ seq }) => seq)

describe('acts that are sent', () => {
  it('are in the record once each and in order, or kept with why not, whatever is lost, refused or killed', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fate, { maxLength: 40 }),
        fc.array(press, { minLength: 1, maxLength: 10 }),
        fc.integer({ min: 0, max: 12 }),
        async (fates, presses, killAfter) => {
          const store = await freshStore()
          const service = createService(fates)
          const device = createDevice(store, service)
          const person = () => 'person 1'
          const first = device.open(person)
          let steps = 0
          const add = (each: Press, at: number) => store.change(() => ({ add: [pressed(newAct(each, at))] }))
          for (const [at, each] of presses.entries()) {
            // Some are pressed while others are on their way.
            if (each.after === 0 && steps === 0) void first.sender.drain()
            await add(each, at)
            first.sender.poke()
            steps += 1
            if (steps === killAfter) first.kill()
          }
          first.kill()
          await device.finish(device.open(person).sender)

          const acts = await store.all()
          expect(acts.map(({ id }) => id)).toEqual(presses.map((_, at) => `key ${at}`))
          expect(acts.filter(({ state }) => state === 'waiting')).toEqual([])
          const inRecord = service.done.map(({ id }) => id)
          expect(new Set(inRecord).size).toBe(inRecord.length)
          // What is said to be sent is there, and what is there was never said to be refused.
          for (const { id, state } of acts) expect(inRecord.includes(id)).toBe(state === 'sent')
          for (const joint of ['joint 1', 'joint 2', 'joint 3']) {
            const order = inOrder(service.done, joint)
            expect(order).toEqual(order.toSorted((a, b) => a - b))
          }
          // Each carries what was pressed, and its instant.
          for (const act of service.done) {
            const kept = acts.find(({ id }) => id === act.id)
            expect([act.at, act.body]).toEqual([kept?.at, kept?.body])
          }
          for (const { state, problem } of acts)
            if (state === 'refused') expect(problem?.message).toBe('Not so')
        },
      ),
      { numRuns: 80 },
    )
  })

  it('are in the record once each and in order, also where two tabs send at once', async () => {
    // A refusal is told apart from an answer by nobody but the service: left to the test of one sender.
    const answering = fate.filter((each) => each !== 'refused')
    await fc.assert(
      fc.asyncProperty(
        fc.array(answering, { maxLength: 30 }),
        fc.array(press, { minLength: 1, maxLength: 8 }),
        async (fates, presses) => {
          const store = await freshStore()
          const service = createService(fates)
          const device = createDevice(store, service)
          for (const [at, each] of presses.entries())
            await store.change(() => ({ add: [pressed(newAct(each, at))] }))
          const tabs = [device.open(() => 'person 1'), device.open(() => 'person 1')]
          await Promise.all(tabs.map(({ sender }) => device.finish(sender)))
          expect(service.done.map(({ id }) => id).toSorted()).toEqual(
            presses.map((_, at) => `key ${at}`).toSorted(),
          )
          for (const joint of ['joint 1', 'joint 2', 'joint 3']) {
            const order = inOrder(service.done, joint)
            expect(order).toEqual(order.toSorted((a, b) => a - b))
          }
        },
      ),
      { numRuns: 40 },
    )
  })

  it('are those of whoever is signed in, and nobody else’s', async () => {
    const store = createMemoryStore()
    const service = createService([])
    const device = createDevice(store, service)
    const presses = [1, 2, 1, 2].map((person) => ({ joint: 1, person, after: 0 }))
    for (const [at, each] of presses.entries())
      await store.change(() => ({ add: [pressed(newAct(each, at))] }))
    const { sender } = device.open(() => 'person 2')
    await device.finish(sender)
    expect(service.done.map(({ id }) => id)).toEqual(['key 1', 'key 3'])
    await device.finish(device.open(() => undefined).sender)
    expect((await store.all()).filter(({ state }) => state === 'waiting')).toHaveLength(2)
    await device.finish(device.open(() => 'person 1').sender)
    expect(service.done.map(({ id }) => id)).toEqual(['key 1', 'key 3', 'key 0', 'key 2'])
  })

  it('stop behind one that is refused at the same joint, and go when they are sent again', async () => {
    const store = await freshStore()
    const service = createService(['refused'])
    const device = createDevice(store, service)
    const { sender } = device.open(() => 'person 1')
    for (const [at, joint] of [1, 1, 2, 1].entries())
      await store.change(() => ({ add: [pressed(newAct({ joint, person: 1, after: 0 }, at))] }))
    await device.finish(sender)
    const states = async () => (await store.all()).map(({ state }) => state)
    expect(await states()).toEqual(['refused', 'stopped', 'sent', 'stopped'])
    await store.change((acts) => ({ put: sentAgain(acts, 'key 1') }))
    await device.finish(sender)
    expect(await states()).toEqual(['refused', 'sent', 'sent', 'stopped'])
    await store.change((acts) => ({ put: sentAgain(acts, 'key 0') }))
    await device.finish(sender)
    expect(await states()).toEqual(['sent', 'sent', 'sent', 'stopped'])
  })

  it('wait as long as the service asks for, and longer with each silence', async () => {
    const store = createMemoryStore()
    await store.change(() => ({ add: [pressed(newAct({ joint: 1, person: 1, after: 0 }, 0))] }))
    let ms = 0
    const waits: number[] = []
    const fates: readonly (Error | undefined)[] = [
      new UnreachableError(undefined),
      new UnreachableError(undefined),
      new ProblemError('too-many-requests', 429, 'Later', [], 30_000),
      undefined,
    ]
    const sender = createSender({
      store,
      personId: () => 'person 1',
      nowMs: () => ms,
      onStep: () => undefined,
      post: async () => {
        const error = fates[waits.length]
        if (error !== undefined) throw error
        await Promise.resolve()
      },
    })
    for (let next = await sender.drain(); next !== undefined; next = await sender.drain()) {
      waits.push(next - ms)
      ms = next
    }
    expect(waits).toEqual([1_000, 2_000, 30_000])
    expect((await store.all())[0]).toMatchObject({ state: 'sent', tries: 3 })
  })
})
