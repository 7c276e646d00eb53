import { afterEach, describe, expect, it } from 'vitest'
import type { Tx } from '../database/database.ts'
import { domainEvent, listen, on, tell } from './domain-event.ts'

const tx = {} as Tx
const lotReceived = domainEvent<{ readonly lot: string }>('lot received')

describe('domain events', () => {
  afterEach(() => listen([]))

  it('tells all who listen, in their order, with the transaction', async () => {
    const heard: unknown[] = []
    listen([
      on(lotReceived, async (told, { lot }) => heard.push(['first', told === tx, lot])),
      on(lotReceived, async (_, { lot }) => heard.push(['second', lot])),
    ])
    await tell(tx, lotReceived, { lot: 'L1' })
    expect(heard).toEqual([
      ['first', true, 'L1'],
      ['second', 'L1'],
    ])
  })

  it('fails what it is told of when a listener fails, and goes no further', async () => {
    const heard: string[] = []
    listen([
      on(lotReceived, () => Promise.reject(new Error('no room'))),
      on(lotReceived, async () => heard.push('later')),
    ])
    await expect(tell(tx, lotReceived, { lot: 'L1' })).rejects.toThrow('no room')
    expect(heard).toEqual([])
  })

  it('refuses to lose an event that nobody hears', async () => {
    await expect(tell(tx, lotReceived, { lot: 'L1' })).rejects.toThrow('Nobody listens to "lot received"')
  })
})
