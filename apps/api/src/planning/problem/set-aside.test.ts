import { inEnglish } from '../../foundation/words/words.ts'
import { check, defineProblem, solve } from '@clampclock/planner'
import { describe, expect, it } from 'vitest'
import type { OrderFact, ShopFacts } from './facts.ts'
import { interpret } from './interpret.ts'
import { begunBeside, solveInTurn } from './set-aside.ts'
import { MONDAY_MS, order, shopFacts } from './testing.ts'

const HOUR = 3_600_000
const HORIZON_MS = 14 * 24 * HOUR

async function plan(facts: ShopFacts) {
  const { translated, answer } = await solveInTurn(facts, async ({ problem }) =>
    solve(defineProblem(problem), { seed: 1, stop: { iterations: 100 } }),
  )
  expect(check(defineProblem(translated.problem), answer.plan).violations).toEqual([])
  return { ...interpret(facts, answer.plan), notes: translated.unplanned }
}

/** Of which the first operation has begun in a bay, with somebody. */
function begun(id: string, endMs: number, more: Partial<OrderFact> = {}): OrderFact {
  const whole = order(id, more)
  const [first, ...rest] = whole.operations
  const progress = {
    kind: 'running' as const,
    startMs: MONDAY_MS - HOUR,
    endMs,
    placeId: 'bay-1',
    technicianIds: ['ann'],
  }
  return { ...whole, operations: [{ ...first!, progress }, ...rest] }
}

/** Where the other vehicle is planned to stand. */
async function baysOfOther(facts: ShopFacts) {
  const { stays, notes, operations } = await plan(facts)
  const bays = stays
    .filter(({ repairOrderId, resourceId }) => repairOrderId === 'car-2' && resourceId.startsWith('bay'))
    .map(({ resourceId }) => resourceId)
  expect(operations.some(({ operationId }) => operationId === 'car-2/refit')).toBe(true)
  expect(operations.some(({ operationId }) => operationId.startsWith('car-1/'))).toBe(false)
  expect(notes.map(({ orderId }) => orderId)).toEqual(['car-1'])
  return { bays: [...new Set(bays)], reasons: notes.flatMap(({ reasons }) => reasons.map(inEnglish)) }
}

describe('a vehicle that has begun and is not planned', () => {
  it('keeps its bay when nobody can do what comes next', async () => {
    const stuck = begun('car-1', MONDAY_MS + 2 * HOUR)
    const operations = stuck.operations.map((each, i) =>
      i === 1 ? { ...each, skill: 'welding' as const } : each,
    )
    const { bays, reasons } = await baysOfOther(
      shopFacts({ orders: [{ ...stuck, operations }, order('car-2')] }),
    )
    expect(bays).toEqual(['bay-2'])
    expect(reasons.join()).toContain('skill welding')
  })

  it('keeps its bay when the planner finds no place behind it', async () => {
    const facts = shopFacts({
      // It ends an hour before the plan does.
      orders: [begun('car-1', MONDAY_MS + HORIZON_MS - HOUR), order('car-2')],
    })
    const { bays, reasons } = await baysOfOther(facts)
    expect(bays).toEqual(['bay-2'])
    expect(reasons).toEqual(['found no place in the next four weeks'])
  })

  it('keeps its bay while a cure on it has no end in sight', async () => {
    const before = order('car-1')
    const at = before.operations.findIndex(({ kind }) => kind === 'cure')
    const operations = before.operations.map((operation, i) => ({
      ...operation,
      progress:
        i > at
          ? ({ kind: 'open' } as const)
          : {
              kind: i === at ? ('running' as const) : ('done' as const),
              startMs: MONDAY_MS - HOUR,
              endMs: i === at ? MONDAY_MS + HORIZON_MS : MONDAY_MS - HOUR,
              placeId: 'bay-1',
              technicianIds: [],
            },
    }))
    const { bays, reasons } = await baysOfOther(
      shopFacts({ orders: [{ ...before, operations }, order('car-2')] }),
    )
    expect(bays).toEqual(['bay-2'])
    expect(reasons).toEqual([
      'Cure does not reach handling strength in the next four weeks on the careful estimate',
    ])
  })

  it('keeps the bay of a bond on a joint without operations', async () => {
    const bonds = [
      {
        id: 'bond',
        jointName: 'Rail',
        placeId: 'bay-1',
        startMs: MONDAY_MS - HOUR,
        readyMs: MONDAY_MS + HORIZON_MS,
      },
    ]
    const { bays } = await baysOfOther(shopFacts({ orders: [order('car-1', { bonds }), order('car-2')] }))
    expect(bays).toEqual(['bay-2'])
  })
})

it('tells which have begun beside a plan: not those in it, nor those that have not begun', () => {
  const orders = [begun('car-1', MONDAY_MS + HOUR), begun('car-2', MONDAY_MS + HOUR), order('car-3')]
  expect([...begunBeside(shopFacts({ orders }), ['car-1/prepare'])]).toEqual(['car-2'])
})
