import type { Membership } from '@clampclock/contracts'
import { describe, expect, it } from 'vitest'
import { mayIn, NO_PREFERENCES, requireIn, shopsWith, visibleShops, type Actor } from './actor.ts'

const actor = (memberships: Membership[], token: Actor['token'] = null): Actor => ({
  kind: token ? 'token' : 'person',
  id: 'a',
  name: 'A',
  email: null,
  organization: { id: 'o', name: 'O' },
  memberships,
  preferences: NO_PREFERENCES,
  token,
  session: null,
})

describe('an actor', () => {
  it('holds a permission where the role is held, and everywhere with a role in every shop', () => {
    const mixed = actor([
      { shopId: 'north', role: 'technician' },
      { shopId: 'south', role: 'viewer' },
    ])
    expect(shopsWith(mixed, 'makeBonds')).toEqual(new Set(['north']))
    expect(shopsWith(mixed, 'readShop')).toEqual(new Set(['north', 'south']))
    expect(shopsWith(actor([{ shopId: null, role: 'owner' }]), 'manageChain')).toBe('all')
    expect(mayIn(mixed, 'makeBonds', 'south')).toBe(false)
  })

  it('is told of a shop that it may see and of no other', () => {
    const viewer = actor([{ shopId: 'south', role: 'viewer' }])
    expect(() => requireIn(viewer, 'makeBonds', 'south')).toThrow(
      expect.objectContaining({ code: 'not-permitted' }),
    )
    expect(() => requireIn(viewer, 'makeBonds', 'north')).toThrow(
      expect.objectContaining({ code: 'not-found' }),
    )
    expect(() => visibleShops(viewer, 'north')).toThrow(expect.objectContaining({ code: 'not-found' }))
    expect(visibleShops(viewer)).toEqual({ in: ['south'] })
    expect(visibleShops(actor([{ shopId: null, role: 'viewer' }]))).toBeUndefined()
  })

  it('that is a sensor sends temperatures in its shop, and reads nothing', () => {
    const sensor = actor([], { scope: 'sensor', shopId: 'north' })
    expect(mayIn(sensor, 'recordTemperature', 'north')).toBe(true)
    expect(mayIn(sensor, 'recordTemperature', 'south')).toBe(false)
    expect(mayIn(sensor, 'readShop', 'north')).toBe(false)
  })
})
