import { inEnglish } from '../../foundation/words/words.ts'
import { check, defineProblem, solve } from '@clampclock/planner'
import { describe, expect, it } from 'vitest'
import { baselineOf } from './baseline.ts'
import type { OrderFact, ShopFacts } from './facts.ts'
import { interpret, type PlannedOperation } from './interpret.ts'
import { BAKED, JOINT, MONDAY_MS, order, RESOURCES, shopFacts, steady } from './testing.ts'
import { translate } from './translate.ts'

const HOUR = 3_600_000

function plan(facts: ShopFacts) {
  const problem = defineProblem(translate(facts).problem)
  const { plan: found } = solve(problem, { seed: 1, stop: { iterations: 200 } })
  const verdict = check(problem, found)
  expect(verdict.violations).toEqual([])
  const { operations, ...rest } = interpret(facts, found)
  const of = (id: string): PlannedOperation => operations.find(({ operationId }) => operationId === id)!
  return { of, operations, ...rest }
}
const minutes = ({ startsAt, endsAt }: PlannedOperation) => (endsAt.getTime() - startsAt.getTime()) / 60_000

/** As if everything before `kind` were done and `kind` itself were under way in bay 1. */
function curing(id: string, untilMs: number): OrderFact {
  const before = order(id)
  const at = before.operations.findIndex(({ kind }) => kind === 'cure')
  return {
    ...before,
    operations: before.operations.map((operation, i) => ({
      ...operation,
      progress:
        i > at
          ? { kind: 'open' }
          : {
              kind: i === at ? 'running' : 'done',
              startMs: MONDAY_MS - HOUR,
              endMs: i === at ? untilMs : MONDAY_MS - HOUR,
              placeId: 'bay-1',
              technicianIds: [],
            },
    })),
  }
}

describe('a vehicle by itself', () => {
  it('goes through its operations in order, bonds without a break, and cures from the clamps on', () => {
    const { of } = plan(shopFacts())
    expect(of('car-1/prepare').startsAt.getTime()).toBe(MONDAY_MS + HOUR)
    expect(of('car-1/cure').startsAt).toEqual(of('car-1/bondAndClamp').endsAt)
    expect(minutes(of('car-1/bondAndClamp'))).toBe(40)
    // 21 degC all along: between the 180 min at 23 degC and the 360 min at 10 degC of the sheet.
    expect(minutes(of('car-1/cure'))).toBeGreaterThan(190)
    expect(minutes(of('car-1/cure'))).toBeLessThan(215)
    expect(of('car-1/cure').expectedEndAt!.getTime()).toBeLessThan(of('car-1/cure').endsAt.getTime())
    expect(of('car-1/unclampAndDress').startsAt.getTime()).toBeGreaterThanOrEqual(
      of('car-1/cure').endsAt.getTime(),
    )
  })

  it('keeps one bay to the oven, and stands in the oven for paint and bake', () => {
    const { of, stays } = plan(shopFacts())
    const places = stays.filter(({ resourceId }) => resourceId !== 'clamps')
    expect(places.map(({ resourceId }) => resourceId.replace(/\d/, ''))).toEqual(['bay-', 'oven', 'bay-'])
    const [bay, oven] = places
    expect(bay!.startsAt).toEqual(of('car-1/prepare').startsAt)
    expect(bay!.endsAt).toEqual(of('car-1/paint').startsAt)
    expect(oven!.endsAt).toEqual(of('car-1/cool').startsAt)
    expect(of('car-1/bake').placeId).toBe('oven')
  })

  it('has its clamps on until somebody takes them off', () => {
    const { of, stays } = plan(shopFacts())
    const [clamps] = stays.filter(({ resourceId }) => resourceId === 'clamps')
    expect(clamps).toMatchObject({
      startsAt: of('car-1/bondAndClamp').startsAt,
      endsAt: of('car-1/unclampAndDress').startsAt,
      units: 1,
    })
  })

  it('takes longer to cure in a colder bay, and goes where it is warm', () => {
    const forecasts = new Map([
      ['bay-1', steady(11)],
      ['bay-2', steady(23)],
    ])
    const { of } = plan(
      shopFacts({ forecasts, orders: [order('car-1', { promisedAtMs: MONDAY_MS + 9 * HOUR })] }),
    )
    expect(of('car-1/cure').placeId).toBe('bay-2')
    expect(minutes(of('car-1/cure'))).toBeLessThanOrEqual(181)
  })

  it('is planned by the coldest of the other bays where there is no thermometer', () => {
    const facts = shopFacts({ forecasts: new Map([['bay-1', steady(15)]]), taken: [taken('bay-1', 0, 300)] })
    const { of } = plan(facts)
    expect(of('car-1/cure').placeId).toBe('bay-2')
    expect(minutes(of('car-1/cure'))).toBeGreaterThan(260)
    expect(translate(facts).assumptions.map(inEnglish)).toEqual([
      'bay-2 has no thermometer: cures there are planned by the coldest of the other bays',
    ])
  })

  it('is late by what is told', () => {
    const { ends, of } = plan(shopFacts({ orders: [order('car-1', { promisedAtMs: MONDAY_MS + 2 * HOUR })] }))
    const late = (of('car-1/refit').endsAt.getTime() - MONDAY_MS) / 60_000 - 120
    expect(ends).toEqual([{ orderId: 'car-1', endsAt: of('car-1/refit').endsAt, lateMinutes: late }])
  })
})

const taken = (resourceId: string, fromHours: number, untilHours: number, units = 1) => ({
  resourceId,
  repairOrderId: 'another',
  units,
  fromMs: MONDAY_MS + fromHours * HOUR,
  untilMs: MONDAY_MS + untilHours * HOUR,
})

describe('what stands fast', () => {
  it('leaves bookings by hand alone, of a bay and of counted clamps', () => {
    const facts = shopFacts({
      taken: [taken('bay-1', 0, 48), taken('bay-2', 0, 30), taken('clamps', 0, 60, 3)],
    })
    const { of } = plan(facts)
    expect(of('car-1/prepare').startsAt.getTime()).toBeGreaterThanOrEqual(MONDAY_MS + 30 * HOUR)
    expect(of('car-1/bondAndClamp').startsAt.getTime()).toBeGreaterThanOrEqual(MONDAY_MS + 60 * HOUR)
  })

  it('goes on from a cure that runs: same bay, nothing sooner than its measured end', () => {
    const untilMs = MONDAY_MS + 5 * HOUR
    const { of, stays } = plan(shopFacts({ orders: [curing('car-1', untilMs), order('car-2')] }))
    expect(of('car-1/unclampAndDress').startsAt.getTime()).toBeGreaterThanOrEqual(untilMs)
    expect(of('car-1/cure')).toMatchObject({ endsAt: new Date(untilMs), placeId: 'bay-1' })
    const mine = stays.find(
      ({ repairOrderId, resourceId }) => repairOrderId === 'car-1' && resourceId === 'bay-1',
    )
    expect(mine!.endsAt).toEqual(of('car-1/paint').startsAt)
    expect(of('car-2/prepare').placeId).toBe('bay-2')
  })

  it("does not take a vehicle's own booking of its bay for an obstacle", () => {
    const own = { ...taken('bay-1', 0, 20), repairOrderId: 'car-1' }
    const { of } = plan(shopFacts({ orders: [curing('car-1', MONDAY_MS + 2 * HOUR)], taken: [own] }))
    expect(of('car-1/unclampAndDress').startsAt.getTime()).toBeLessThan(MONDAY_MS + 4 * HOUR)
  })
})

describe('rule 3 and 4: nobody moves a vehicle before its bonds are ready', () => {
  const bond = {
    id: 'bond',
    jointName: 'Rail',
    placeId: 'bay-1',
    startMs: MONDAY_MS - HOUR,
    readyMs: MONDAY_MS + 30 * HOUR,
  }

  it('waits with the oven for a bond on a joint without operations, and works on where it stands', () => {
    const started = curing('car-1', MONDAY_MS + 2 * HOUR)
    const { of } = plan(shopFacts({ orders: [{ ...started, bonds: [bond] }] }))
    expect(of('car-1/unclampAndDress').startsAt.getTime()).toBeLessThan(MONDAY_MS + 4 * HOUR)
    for (const kind of ['sealAndPrime', 'paint', 'bake', 'cool', 'refit'])
      expect(of(`car-1/${kind}`).startsAt.getTime()).toBeGreaterThanOrEqual(bond.readyMs)
  })

  it('does not bring it into a bay before that when nobody told where it stands', () => {
    const { of } = plan(shopFacts({ orders: [order('car-1', { bonds: [bond] })] }))
    expect(of('car-1/prepare').startsAt.getTime()).toBeGreaterThanOrEqual(bond.readyMs)
  })

  it('does not take it to the oven for one joint while another cures', () => {
    const one = order('car-1')
    const ofJoint = one.operations.filter(({ jointId }) => jointId !== null)
    const [prepare] = ofJoint
    // Heated in the oven before it is aligned: the shop's own template.
    const other = { ...prepare!, id: 'car-1/other', jointId: 'car-1/second', place: 'oven' as const }
    const operations = [...ofJoint, other]
    const { of } = plan(shopFacts({ orders: [{ ...one, operations }] }))
    expect(of('car-1/other').startsAt.getTime()).toBeGreaterThanOrEqual(of('car-1/cure').endsAt.getTime())
  })
})

describe('clamp sets of two kinds', () => {
  const resources = [
    ...RESOURCES,
    { ...RESOURCES.find(({ id }) => id === 'clamps')!, id: 'long-clamps', name: 'long-clamps' },
  ]
  const clampsOn = (id: string, clampSetId: string): OrderFact => {
    const running = curing(id, MONDAY_MS + 5 * HOUR)
    return {
      ...running,
      operations: running.operations.map((each) =>
        each.kind === 'bondAndClamp' ? { ...each, clampSetId } : each,
      ),
    }
  }

  it('are held by the bond that has them on', () => {
    const { stays } = plan(shopFacts({ resources, orders: [clampsOn('car-1', 'long-clamps')] }))
    expect(stays.filter(({ resourceId }) => resourceId.includes('clamps'))).toMatchObject([
      { resourceId: 'long-clamps' },
    ])
  })

  it('are those of its own vehicle in the plan before, though another begins at that minute', () => {
    const facts = shopFacts({ resources, orders: [order('car-1'), order('car-2')] })
    const at = (hours: number) => new Date(MONDAY_MS + hours * HOUR)
    const operations = facts.orders.flatMap((each) =>
      each.operations.map(({ id }, i) => ({
        operationId: id,
        startsAt: at(i),
        endsAt: at(i + 1),
        placeId: 'bay-1',
        technicianIds: [],
        overtime: false,
      })),
    )
    const stay = (repairOrderId: string, resourceId: string) => ({
      repairOrderId,
      resourceId,
      startsAt: at(2),
      endsAt: at(4),
    })
    const stays = [stay('car-1', 'clamps'), stay('car-2', 'long-clamps')]
    const { holds } = baselineOf(facts, { operations, stays })
    const clamps = holds.filter(({ holdId }) => holdId.endsWith('/clamps'))
    expect(clamps).toEqual([
      { holdId: 'car-1/bondAndClamp/clamps', resourceId: 'clamps', from: 120, until: 240 },
      { holdId: 'car-2/bondAndClamp/clamps', resourceId: 'long-clamps', from: 120, until: 240 },
    ])
  })
})

it('counts what the shelf lacks, also of a product of which there is nothing', () => {
  const shortOf = (lots: ShopFacts['lots']) => {
    const problem = defineProblem(translate(shopFacts({ lots })).problem)
    const { plan: found } = solve(problem, { seed: 1, stop: { iterations: 50 } })
    return check(problem, found).values.shortage
  }
  const lot = { id: 'lot', productId: 'glue', expiresAtMs: MONDAY_MS + 1000 * HOUR }
  expect(shortOf([])).toBe(JOINT.amountUl)
  expect(shortOf([{ ...lot, amountUl: 20_000 }])).toBe(JOINT.amountUl - 20_000)
  expect(shortOf([{ ...lot, amountUl: 60_000 }])).toBe(0)
})

describe('what cannot be planned is told, and the rest is planned', () => {
  const reasonsFor = (broken: OrderFact, more: Partial<ShopFacts> = {}) => {
    const facts = shopFacts({ orders: [broken, order('car-2')], ...more })
    plan(facts)
    return translate(facts).unplanned.flatMap(({ reasons }) => reasons.map(inEnglish))
  }

  it('a skill that nobody has', () => {
    const broken = order('car-1')
    const operations = broken.operations.map((each) => ({
      ...each,
      skill: each.skill && ('welding' as const),
    }))
    expect(reasonsFor({ ...broken, operations })).toContain(
      'Dry fit needs 1 technicians with the skill welding; the shop has 0',
    )
  })

  it('a bay with what it needs', () => {
    const broken = order('car-1')
    const operations = broken.operations.map((each) => ({ ...each, attributes: ['frameBench' as const] }))
    expect(reasonsFor({ ...broken, operations })[0]).toContain('there is no bay with frameBench')
  })

  it('a bake beyond the rated range, and beyond the limit of the vehicle', () => {
    const weak = { ...BAKED, serviceRangeC: { min: -40, max: 55 } }
    const reasons = reasonsFor(order('car-1', { ovenLimitC: 50, joints: [weak] }))
    expect(reasons).toHaveLength(2)
    expect(reasons.join()).toContain('on Door skin is rated to 55.0 °C')
  })

  it('a bake after a release that came too early, until somebody has disposed of it', () => {
    expect(
      reasonsFor(order('car-1', { joints: [{ ...BAKED, name: 'Rail', heldBy: 'releasedEarly' }] })),
    ).toEqual(['Bake: Rail: it was released before handling strength'])
  })

  it('more clamp sets than there are', () => {
    const broken = order('car-1')
    const operations = broken.operations.map((each) => ({ ...each, clampSets: each.clampSets * 4 }))
    expect(reasonsFor({ ...broken, operations })).toEqual([
      'Bond and clamp needs 4 clamp sets of one kind; the most there are is 3',
    ])
  })
})

it('plans a week of a small shop without breaking a rule, on every seed', () => {
  const orders = Array.from({ length: 8 }, (_, i) =>
    order(`car-${i}`, {
      promisedAtMs: MONDAY_MS + (20 + 12 * i) * HOUR,
      priority: i % 3 === 0 ? 'rush' : 'normal',
    }),
  )
  const facts = shopFacts({
    orders,
    resources: [...RESOURCES, { ...RESOURCES[0]!, id: 'bay-3', name: 'bay-3' }],
  })
  const { operations, unplannedOrderIds } = plan(facts)
  expect(unplannedOrderIds).toEqual([])
  expect(operations).toHaveLength(80)
})
