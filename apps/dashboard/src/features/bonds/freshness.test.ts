import { describe, expect, it } from 'vitest'
import type { Act } from '../../api/acts/act.ts'
import { pressed } from '../../api/acts/queue.ts'
import { isUntold } from './freshness.ts'

const act = (part: Partial<Act>): Act => ({
  ...pressed({
    id: 'key',
    personId: 'me',
    kind: 'slideBond',
    method: 'POST',
    path: '/v1/bonds/:bondId/slides',
    params: { bondId: 'bond' },
    body: {},
    at: '2031-05-04T10:44:00.000Z',
    about: {
      shopId: 'shop',
      repairOrderId: 'this',
      repairOrderNumber: 'R1',
      vehicle: 'Invented car',
      jointId: 'joint',
      jointName: 'Sill',
    },
    topics: ['bonds'],
  }),
  seq: 1,
  ...part,
})

const isInDoubt = (part: Partial<Act>, order = 'this') =>
  isUntold({ items: [act(part)], isKnown: true }, 'me', order)

describe('a safety answer', () => {
  it('is none before it is known what waits on the device', () => {
    expect(isUntold({ items: [], isKnown: false }, 'me', 'this')).toBe(true)
    expect(isUntold({ items: [], isKnown: true }, 'me', 'this')).toBe(false)
  })

  it('is none while an act of one’s own waits, wherever it was', () => {
    expect(isInDoubt({})).toBe(true)
    expect(isInDoubt({}, 'another')).toBe(true)
  })

  it('is none of a vehicle while somebody else’s act waits here, and of another it is', () => {
    expect(isInDoubt({ personId: 'other' })).toBe(true)
    expect(isInDoubt({ personId: 'other' }, 'another')).toBe(false)
  })

  it('is none while what was refused or stopped at the vehicle has not been seen', () => {
    for (const state of ['refused', 'stopped'] as const) {
      for (const personId of ['me', 'other']) {
        expect(isInDoubt({ state, personId })).toBe(true)
        expect(isInDoubt({ state, personId, isSeen: true })).toBe(false)
        expect(isInDoubt({ state, personId }, 'another')).toBe(false)
      }
    }
  })

  it('is one again once the service has it', () => {
    expect(isInDoubt({ state: 'sent' })).toBe(false)
  })
})
