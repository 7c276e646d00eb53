import { expect, it } from 'vitest'
import { mayDo, rolesOf } from './permissions.ts'

const technicianOfA = { memberships: [{ shopId: 'a', role: 'technician' as const }] }

it('holds a role in its own shop only', () => {
  expect(mayDo(technicianOfA, 'makeBonds', 'a')).toBe(true)
  expect(mayDo(technicianOfA, 'makeBonds', 'b')).toBe(false)
  expect(mayDo(technicianOfA, 'planWork', 'a')).toBe(false)
})

it('holds a role without a shop everywhere', () => {
  const owner = { memberships: [{ shopId: null, role: 'owner' as const }] }
  expect(mayDo(owner, 'manageChain', 'b')).toBe(true)
})

it('names each role once', () => {
  const both = { memberships: [...technicianOfA.memberships, { shopId: 'b', role: 'technician' as const }] }
  expect(rolesOf(both)).toBe('Technician')
})
