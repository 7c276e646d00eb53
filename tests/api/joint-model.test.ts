import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  acceptance,
  application,
  freshBay,
  makeJoint,
  makeShop,
  receive,
  steadyAir,
  type Shop,
} from '../support/fixtures.ts'
import { NOON, startTestApp, type TestApp } from '../support/test-app.ts'

// Random days of a joint through the service, against a few lines that know what is true: the metal is at 23 degC all
// along, where the sheet says 60 minutes of work time and 180 to handling strength.

/** What happened to one attempt, as whoever stood beside it would tell. */
interface Told {
  bondId: string
  appliedAt: number
  clampedAt: number | null
  end: 'released' | 'abandoned' | null
  /** Departures that nobody has answered for, by the incident's kind. */
  open: Map<string, string>
  isRedone: boolean
  isAccepted: boolean
  /** The panels were taken apart: nothing is left to cure. */
  isLifted: boolean
}

interface Truth {
  minutes: number
  attempts: Told[]
}

interface Answer {
  readonly state: string
  readonly joints: readonly {
    readonly state: string
    readonly bonds: readonly {
      readonly id: string
      readonly incidents: readonly {
        readonly id: string
        readonly kind: string
        readonly disposition: object | null
      }[]
    }[]
  }[]
  readonly moveCheck: { readonly mayMove: boolean; readonly reasons: readonly { readonly code: string }[] }
  readonly version: number
}

interface World {
  readonly test: TestApp
  readonly shop: Shop
  readonly orderId: string
  readonly jointId: string
  readonly order: () => Promise<Answer>
}

const HANDLING_MINUTES = 180
const WORK_MINUTES = 60

const runs = ({ end }: Told): boolean => end === null
const isCured = (one: Told, { minutes }: Truth): boolean => minutes - one.appliedAt >= HANDLING_MINUTES

/** Whether the vehicle may be moved as far as anybody who knew the metal could say. */
function mayTrulyMove(truth: Truth): boolean {
  return truth.attempts.every((one, i) => {
    const isReplaced = i < truth.attempts.length - 1
    if (one.end === 'abandoned') return isReplaced || (one.isAccepted && one.open.size === 0 && !one.isRedone)
    if (one.open.size > 0) return false
    if (one.isRedone) return isReplaced && !runs(one)
    return !runs(one) || (one.clampedAt !== null && isCured(one, truth))
  })
}

/** Whoever waits this long, with the air of the bay read all along, is not kept waiting by any doubt. */
function hasWaitedLongEnough({ attempts, minutes }: Truth): boolean {
  return attempts.every((one) => !runs(one) || minutes - one.appliedAt >= 4 * HANDLING_MINUTES)
}

type Command = fc.AsyncCommand<Truth, World>

abstract class Act implements Command {
  abstract toString(): string
  check(truth: Readonly<Truth>): boolean {
    return this.mayBeTried(truth)
  }
  protected abstract mayBeTried(truth: Readonly<Truth>): boolean
  protected abstract act(truth: Truth, world: World): Promise<void>

  async run(truth: Truth, world: World): Promise<void> {
    await this.act(truth, world)
    await this.#compare(truth, world)
  }

  /** The service never says yes of a joint that isn't; and it does say yes where nothing is left to wait for. */
  async #compare(truth: Truth, { order }: World): Promise<void> {
    const { moveCheck, joints } = await order()
    if (moveCheck.mayMove) expect(mayTrulyMove(truth), JSON.stringify(joints[0]?.state)).toBe(true)
    if (mayTrulyMove(truth) && hasWaitedLongEnough(truth))
      expect(moveCheck, JSON.stringify(joints[0]?.state)).toMatchObject({ mayMove: true, reasons: [] })
  }
}

const latest = ({ attempts }: Truth): Told | undefined => attempts.at(-1)

/** What the service has on record as open, taken over into the model: what it must be is asserted by whoever acts. */
async function openKinds({ order }: World, one: Told): Promise<Map<string, string>> {
  const bond = (await order()).joints[0]!.bonds.find(({ id }) => id === one.bondId)!
  const open = bond.incidents.filter(({ kind, disposition }) => kind !== 'gateOverridden' && !disposition)
  return new Map(open.map(({ kind, id }) => [kind, id]))
}

class Wait extends Act {
  readonly #minutes: number
  constructor(minutes: number) {
    super()
    this.#minutes = minutes
  }
  toString = (): string => `wait ${this.#minutes} min`
  protected mayBeTried = (): boolean => true
  protected async act(truth: Truth, { test, shop }: World): Promise<void> {
    truth.minutes += this.#minutes
    test.clock.now = new Date(NOON.getTime() + truth.minutes * 60_000)
    await steadyAir(test.owner, shop.sensorId, 23, test.clock.now, Math.ceil(this.#minutes / 60) + 1)
  }
}

class Apply extends Act {
  readonly #against: boolean
  constructor(against: boolean) {
    super()
    this.#against = against
  }
  toString = (): string => (this.#against ? 'apply against a refusal' : 'apply')
  protected mayBeTried = (): boolean => true
  protected async act(truth: Truth, world: World): Promise<void> {
    const { test, shop, jointId } = world
    // One for each attempt: a joint takes a quarter of it.
    const [cartridge] = await receive(test.owner, shop)
    const change = this.#against
      ? {
          prepared: { surfaces: false, dryFit: true, skimCoat: true },
          alreadyHappened: true,
          reason: 'It was on before anybody looked',
        }
      : {}
    const body = application(shop, cartridge!.id, change)
    const { status, body: bond } = await test.owner.post(`/v1/joints/${jointId}/bonds`, body)
    const isRunning = truth.attempts.some(runs)
    expect(status, JSON.stringify(bond)).toBe(isRunning ? 409 : 201)
    if (isRunning) return
    // Bonded again: what was scraped off is answered for.
    for (const before of truth.attempts) before.open.delete('leftWithAdhesive')
    const one: Told = {
      bondId: bond.id,
      appliedAt: truth.minutes,
      clampedAt: null,
      end: null,
      open: new Map(),
      isRedone: false,
      isAccepted: false,
      isLifted: false,
    }
    one.open = await openKinds(world, one)
    expect([...one.open.keys()]).toEqual(this.#against ? ['appliedAgainstRefusal'] : [])
    truth.attempts.push(one)
  }
}

class Clamp extends Act {
  readonly #saidMinutesAgo: number
  constructor(saidMinutesAgo: number) {
    super()
    this.#saidMinutesAgo = saidMinutesAgo
  }
  toString = (): string => `clamp, said to be ${this.#saidMinutesAgo} min ago`
  protected mayBeTried = (truth: Truth): boolean => {
    const one = latest(truth)
    return one !== undefined && runs(one) && truth.minutes - one.appliedAt >= this.#saidMinutesAgo
  }
  protected async act(truth: Truth, world: World): Promise<void> {
    const one = latest(truth)!
    const at = new Date(NOON.getTime() + (truth.minutes - this.#saidMinutesAgo) * 60_000).toISOString()
    const { status } = await world.test.owner.post(`/v1/bonds/${one.bondId}/clamping`, { at })
    expect(status).toBe(one.clampedAt === null ? 201 : 409)
    if (one.clampedAt !== null) return
    one.clampedAt = truth.minutes
    one.open = await openKinds(world, one)
    // Whatever is said of the past: entered more than a quarter of an hour after the work time, it was late.
    if (truth.minutes - one.appliedAt > WORK_MINUTES + 15)
      expect([...one.open.keys()]).toContain('clampedAfterWorkTime')
  }
}

class Release extends Act {
  readonly #happened: boolean
  constructor(happened: boolean) {
    super()
    this.#happened = happened
  }
  toString = (): string => (this.#happened ? 'clamps came off' : 'release')
  protected mayBeTried = (truth: Truth): boolean => latest(truth) !== undefined
  protected async act(truth: Truth, world: World): Promise<void> {
    const one = latest(truth)!
    const body = this.#happened ? { alreadyHappened: true, reason: 'Somebody took them off' } : {}
    const { status } = await world.test.owner.post(`/v1/bonds/${one.bondId}/release`, body)
    if (!runs(one)) {
      expect(status).toBe(409)
      return
    }
    if (this.#happened) expect(status).toBe(201)
    if (status !== 201) return
    if (!this.#happened) {
      expect(one.clampedAt, 'released what was never clamped').not.toBeNull()
      expect(isCured(one, truth), 'released what had not cured').toBe(true)
      expect(one.open.size, 'released what waits for a person').toBe(0)
    }
    one.end = 'released'
    one.open = await openKinds(world, one)
    if (one.clampedAt === null || !isCured(one, truth)) expect([...one.open.keys()]).toContain('earlyRelease')
  }
}

class Abandon extends Act {
  readonly #wasLifted: boolean
  constructor(wasLifted: boolean) {
    super()
    this.#wasLifted = wasLifted
  }
  toString = (): string => (this.#wasLifted ? 'lift apart' : 'abandon')
  protected mayBeTried = (truth: Truth): boolean => latest(truth) !== undefined
  protected async act(truth: Truth, world: World): Promise<void> {
    const one = latest(truth)!
    const body = { reason: 'It is over', wasLifted: this.#wasLifted }
    const { status } = await world.test.owner.post(`/v1/bonds/${one.bondId}/abandonment`, body)
    expect(status).toBe(runs(one) ? 201 : 409)
    if (!runs(one)) return
    const before = [...one.open.keys()]
    one.end = 'abandoned'
    one.isLifted = this.#wasLifted
    one.open = await openKinds(world, one)
    expect([...one.open.keys()].toSorted()).toEqual([...before, 'leftWithAdhesive'].toSorted())
  }
}

class Dispose extends Act {
  readonly #kind: 'inspectedAndAccepted' | 'redone'
  readonly #which: number
  constructor(kind: 'inspectedAndAccepted' | 'redone', which: number) {
    super()
    this.#kind = kind
    this.#which = which
  }
  toString = (): string => `${this.#kind} of open incident ${this.#which}`
  protected mayBeTried = (truth: Truth): boolean => truth.attempts.some(({ open }) => open.size > 0)
  protected async act(truth: Truth, world: World): Promise<void> {
    const { owner } = world.test
    const all = truth.attempts.flatMap((one) => [...one.open].map(([kind, id]) => ({ one, kind, id })))
    const { one, kind, id } = all[this.#which % all.length]!
    const body =
      this.#kind === 'redone' ? { kind: 'redone', reason: 'Bond it again' } : await acceptance(owner, id)
    const { status } = await owner.post(`/v1/incidents/${id}/disposition`, body)
    const isAccepted = this.#kind === 'inspectedAndAccepted'
    const cannotBe = isAccepted && kind === 'appliedAgainstRefusal' && runs(one)
    // Nobody's word cures adhesive: with its clamps off, it is accepted once it can have cured.
    const isOff = isAccepted && one.end !== null && !one.isLifted
    if (isOff && !isCured(one, truth)) expect(status, 'accepted what cannot have cured').toBe(409)
    if (isOff && truth.minutes - one.appliedAt >= 4 * HANDLING_MINUTES) expect(status).toBe(201)
    if (!isOff) expect(status).toBe(cannotBe ? 409 : 201)
    if (status !== 201) return
    one.open.delete(kind)
    if (this.#kind === 'redone') one.isRedone = true
    else if (kind === 'leftWithAdhesive') one.isAccepted = true
  }
}

class Close extends Act {
  toString = (): string => 'close the order'
  protected mayBeTried = (truth: Truth): boolean => !mayTrulyMove(truth) || truth.attempts.some(runs)
  protected async act(_truth: Truth, { test, orderId, order }: World): Promise<void> {
    const { version } = await order()
    const { status } = await test.owner.patch(`/v1/repairOrders/${orderId}`, { state: 'done' }, version)
    expect(status).toBe(409)
  }
}

class Bake extends Act {
  toString = (): string => 'bake it now'
  protected mayBeTried = (truth: Truth): boolean => !mayTrulyMove(truth)
  protected async act(_truth: Truth, { test, shop, orderId }: World): Promise<void> {
    const startsAt = new Date(test.clock.now.getTime() + 60_000)
    const { status } = await test.owner.post('/v1/bookings', {
      resourceId: shop.ovenId,
      repairOrderId: orderId,
      purpose: 'bake',
      startsAt: startsAt.toISOString(),
      endsAt: new Date(startsAt.getTime() + 60_000).toISOString(),
      highestMetalC: 60,
    })
    expect(status).toBe(409)
  }
}

const acts = [
  fc.constantFrom(5, 20, 61, 100, 400, 900).map((minutes) => new Wait(minutes)),
  fc.boolean().map((against) => new Apply(against)),
  fc.constantFrom(0, 0, 30, 90).map((ago) => new Clamp(ago)),
  fc.boolean().map((happened) => new Release(happened)),
  fc.boolean().map((wasLifted) => new Abandon(wasLifted)),
  fc
    .tuple(fc.constantFrom('inspectedAndAccepted' as const, 'redone' as const), fc.nat({ max: 5 }))
    .map(([kind, which]) => new Dispose(kind, which)),
  fc.constant(new Close()),
  fc.constant(new Bake()),
]

describe('any day of a joint', () => {
  let test: TestApp
  let shop: Shop
  beforeAll(async () => {
    test = await startTestApp('server')
    shop = await makeShop(test.owner)
  })
  afterAll(() => test.end())

  it(
    'never says yes of a joint that is not ready, and says it of one that is',
    { timeout: 240_000 },
    async () => {
      await fc.assert(
        fc.asyncProperty(fc.commands(acts, { maxCommands: 16 }), async (commands) => {
          test.clock.now = NOON
          shop = await freshBay(test.owner, shop, NOON, 23, 3)
          const { orderId, jointId } = await makeJoint(test.owner, shop)
          const order = () => test.owner.read<Answer>(`/v1/repairOrders/${orderId}`)
          const world: World = { test, shop, orderId, jointId, order }
          await fc.asyncModelRun(
            () => ({ model: { minutes: 0, attempts: [] } as Truth, real: world }),
            commands,
          )
        }),
        { numRuns: 25 },
      )
    },
  )
})
