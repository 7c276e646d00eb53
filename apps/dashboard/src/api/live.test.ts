import { describe, expect, it } from 'vitest'
import { concerns, readEvent, withEvent, type Changes } from './live.ts'

const none: Changes = new Map()

describe('concerns', () => {
  it('asks again where the topic and the shop match', () => {
    const changes = withEvent(none, { topic: 'stock', shopId: 'a', id: null })
    expect(concerns(changes, { topics: ['stock'], shopId: 'a' })).toBe(true)
    expect(concerns(changes, { topics: ['stock'], shopId: 'b' })).toBe(false)
    expect(concerns(changes, { topics: ['bonds'], shopId: 'a' })).toBe(false)
  })
  it('asks again for a query over every shop', () => {
    expect(concerns(withEvent(none, { topic: 'stock', shopId: 'a', id: null }), { topics: ['stock'] })).toBe(
      true,
    )
  })
  it('leaves queries without topics alone', () => {
    expect(concerns(withEvent(none, { topic: 'stock', shopId: null, id: null }), undefined)).toBe(false)
  })
})

describe('withEvent', () => {
  it('gathers the shops of a burst', () => {
    const both = withEvent(withEvent(none, { topic: 'bonds', shopId: 'a', id: '1' }), {
      topic: 'bonds',
      shopId: 'b',
      id: '2',
    })
    expect(concerns(both, { topics: ['bonds'], shopId: 'b' })).toBe(true)
  })
  it('keeps "anywhere" once it was said', () => {
    const anywhere = withEvent(none, { topic: 'bonds', shopId: null, id: null })
    expect(withEvent(anywhere, { topic: 'bonds', shopId: 'a', id: null }).get('bonds')).toBeNull()
  })
})

it('reads events and passes over anything else', () => {
  expect(readEvent('{"topic":"stock","shopId":"a","id":null}')).toEqual({
    topic: 'stock',
    shopId: 'a',
    id: null,
  })
  expect(readEvent('hello')).toBeUndefined()
})
