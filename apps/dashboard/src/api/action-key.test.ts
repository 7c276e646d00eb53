import { expect, it } from 'vitest'
import { createActionKey } from './action-key.ts'
import { toProblemError, UnreachableError } from './problem.ts'

function counted() {
  let count = 0
  return createActionKey(() => `key-${(count += 1)}`)
}

it('keeps the key while the same action is tried again after silence', () => {
  const action = counted()
  const first = action.keyFor({ body: { a: 1 } })
  action.settled(new UnreachableError('offline'))
  expect(action.keyFor({ body: { a: 1 } })).toBe(first)
})

it('takes a new key when the content changes', () => {
  const action = counted()
  const first = action.keyFor({ body: { a: 1 } })
  action.settled(new UnreachableError('offline'))
  expect(action.keyFor({ body: { a: 2 } })).not.toBe(first)
})

it('takes a new key once the service has answered, whatever it said', () => {
  const action = counted()
  const first = action.keyFor({})
  action.settled(toProblemError(409, {}))
  const second = action.keyFor({})
  expect(second).not.toBe(first)
  action.settled(null)
  expect(action.keyFor({})).not.toBe(second)
})
