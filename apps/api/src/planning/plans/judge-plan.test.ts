import { defineProblem, solve } from '@clampclock/planner'
import { describe, expect, it } from 'vitest'
import type { BondFact, OrderFact, Progress, ShopFacts } from '../problem/facts.ts'
import { judgePlan } from './planner-worker.ts'
import { MONDAY_MS, order, shopFacts } from '../problem/testing.ts'
import { translate } from '../problem/translate.ts'

const HOUR = 3_600_000

/** As if everything before `kind` were done, and `kind` itself were under way in bay 1 until then. */
function under(id: string, kind: string, endMs: number, more: Partial<Progress> = {}): OrderFact {
  const whole = order(id)
  const at = whole.operations.findIndex((each) => each.kind === kind)
  const past = { startMs: MONDAY_MS - HOUR, placeId: 'bay-1', technicianIds: [] }
  return {
    ...whole,
    operations: whole.operations.map((operation, i) => ({
      ...operation,
      progress:
        i > at
          ? { kind: 'open' as const }
          : i === at
            ? ({ kind: 'running', ...past, endMs, ...more } as Progress)
            : { kind: 'done' as const, ...past, endMs: MONDAY_MS - HOUR },
    })),
  }
}

/** A plan by the facts of then, judged by those of now. */
function judged(then: ShopFacts, now: ShopFacts) {
  const { plan } = solve(defineProblem(translate(then).problem), { seed: 1, stop: { iterations: 100 } })
  expect(plan.unplannedJobs).toEqual([])
  return judgePlan({ facts: now, leftOut: new Set(), plan }).violations.map(({ rule }) => rule)
}
const facts = (...orders: OrderFact[]) => shopFacts({ orders })

describe('a plan that waits to be published', () => {
  it('still fits when a cure that runs ends some minutes later, and not when what follows comes before', () => {
    const then = facts(under('car-1', 'cure', MONDAY_MS + 20 * 60_000))
    // What follows starts with the shift, an hour from then.
    expect(judged(then, facts(under('car-1', 'cure', MONDAY_MS + 55 * 60_000)))).toEqual([])
    expect(judged(then, facts(under('car-1', 'cure', MONDAY_MS + 90 * 60_000)))).toContain('lag')
  })

  it('still fits while something runs that should have ended, or has ended meanwhile', () => {
    const then = facts(
      under('car-1', 'prepare', MONDAY_MS + HOUR, { technicianIds: ['ann'] }),
      order('car-2'),
    )
    const [running, other] = then.orders as [OrderFact, OrderFact]
    const ended = running.operations.map((each) =>
      each.kind === 'prepare' && each.progress.kind === 'running'
        ? { ...each, progress: { ...each.progress, kind: 'done' as const, endMs: MONDAY_MS + HOUR / 2 } }
        : each,
    )
    expect(judged(then, facts({ ...running, operations: ended }, other))).toEqual([])
  })

  it('still fits when the last thing on a vehicle is overdue, and nobody needs the bay', () => {
    const at = (minutes: number) =>
      facts(under('car-1', 'refit', MONDAY_MS + minutes * 60_000, { technicianIds: ['ann'] }))
    expect(judged(at(30), at(95))).toEqual([])
  })

  it('does not fit when the bay is needed behind what is overdue', () => {
    const at = (minutes: number) => ({
      ...facts(under('car-1', 'refit', MONDAY_MS + minutes * 60_000), order('car-2')),
      resources: shopFacts().resources.filter(({ id }) => id !== 'bay-2'),
    })
    expect(judged(at(30), at(45))).toEqual([])
    expect(judged(at(30), at(300))).toContain('capacity')
  })

  it('does not fit when something began at another time than it was to', () => {
    const then = facts(order('car-1'))
    const now = facts(
      under('car-1', 'prepare', MONDAY_MS + 2 * HOUR, {
        startMs: MONDAY_MS + 90 * 60_000,
        technicianIds: ['ann'],
      }),
    )
    expect(judged(then, now)).toContain('fixed')
  })
})

describe('a bond on a joint without operations', () => {
  const bond = (readyMs: number): BondFact => ({
    id: 'bond',
    jointName: 'Rail',
    placeId: 'bay-1',
    startMs: MONDAY_MS - HOUR,
    readyMs,
  })
  const withBond = (readyMs: number) => facts({ ...order('car-1'), bonds: [bond(readyMs)] })

  it('keeps the vehicle from the oven until it is ready, as it is known by now', () => {
    const then = withBond(MONDAY_MS + HOUR)
    expect(judged(then, withBond(MONDAY_MS + HOUR))).toEqual([])
    expect(judged(then, withBond(MONDAY_MS + 72 * HOUR))).toContain('lag')
    // One that was made since.
    expect(judged(facts(order('car-1')), withBond(MONDAY_MS + 72 * HOUR))).toContain('lag')
  })
})
