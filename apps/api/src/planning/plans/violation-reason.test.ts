import { inEnglish } from '../../foundation/words/words.ts'
import type { Violation } from '@clampclock/planner'
import { expect, it } from 'vitest'
import { bondTaskOf, leaveOf } from '../problem/task-names.ts'
import { MONDAY_MS, order, shopFacts } from '../problem/testing.ts'
import { violationReason } from './violation-reason.ts'

/** As ids look in the database: none of them may be read by a person. */
const ID = '0197d5f0-1111-7000-8000-00000000000'
const whole = order(`${ID}0`)
const facts = shopFacts({
  orders: [
    {
      ...whole,
      number: 'RO-1',
      bonds: [
        {
          id: `${ID}8`,
          jointName: 'Left sill',
          startMs: MONDAY_MS,
          readyMs: MONDAY_MS + 3_600_000,
        } as never,
      ],
    },
  ],
  resources: [...shopFacts().resources, { ...shopFacts().resources[0]!, id: `${ID}9`, name: 'Bay nine' }],
})
const [first, second] = facts.orders[0]!.operations
const RULES: Record<Violation['rule'], true> = {
  unplanned: true,
  form: true,
  mode: true,
  fixed: true,
  window: true,
  duration: true,
  calendar: true,
  unavailable: true,
  capacity: true,
  batch: true,
  setup: true,
  lag: true,
  maxLag: true,
  hold: true,
}

it.each(
  Object.keys(RULES).flatMap((rule) =>
    [
      [first!.id, second!.id],
      [leaveOf(`${ID}0`), first!.id],
      [bondTaskOf(`${ID}8`), second!.id],
      ['booking of nobody', first!.id],
    ].map((taskIds) => [rule as Violation['rule'], taskIds] as const),
  ),
)('%s of %s is told by names and instants, never by an id or a minute', (rule, taskIds) => {
  const { message: told } = violationReason(facts, {
    rule,
    taskIds,
    resourceId: `${ID}9`,
    at: 90,
    by: 30,
    message: `${taskIds.join(' and ')} on ${ID}9 from 90 to 1440`,
  })
  const message = inEnglish(told)
  expect(message).not.toMatch(/0197d5f0|\b90\b|1440|\bcar-|\/leave|undefined|the vehicle of the vehicle/i)
  if (['capacity', 'unavailable', 'calendar', 'lag', 'maxLag', 'batch', 'setup', 'window'].includes(rule))
    expect(message).toContain('Mon 07:30')
})
