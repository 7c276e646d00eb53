import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { concerns, listen, readEvent, withEvent, type Changes } from './live.ts'

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

/** A stream that says only what a test says. */
class Stream extends EventTarget {
  static readonly CLOSED = 2
  static opened: Stream[] = []
  readyState = 1
  constructor() {
    super()
    Stream.opened.push(this)
  }
  says(name: string): void {
    this.dispatchEvent(new Event(name))
  }
  close(): void {
    this.readyState = Stream.CLOSED
  }
}

describe('a stream', () => {
  const states: string[] = []
  let gaps = 0
  let end: () => void
  beforeEach(() => {
    vi.useFakeTimers()
    vi.stubGlobal('EventSource', Stream)
    Stream.opened = []
    states.length = 0
    gaps = 0
    end = listen({ onState: (state) => states.push(state), onChanges: () => undefined, onGap: () => gaps++ })
    Stream.opened[0]!.says('open')
  })
  afterEach(() => {
    end()
    vi.unstubAllGlobals()
    vi.useRealTimers()
  })

  it('stays as long as it says that it lives', () => {
    for (let beats = 0; beats < 20; beats++) {
      vi.advanceTimersByTime(6_000)
      Stream.opened[0]!.says('alive')
    }
    expect(states).toEqual(['live'])
    expect(Stream.opened).toHaveLength(1)
  })

  it('that died in silence is noticed within 20 s, and another asks what was missed', () => {
    vi.advanceTimersByTime(6_000)
    Stream.opened[0]!.says('alive')
    vi.advanceTimersByTime(20_000)
    expect(states).toEqual(['live', 'reconnecting'])
    expect(Stream.opened.map(({ readyState }) => readyState)).toEqual([Stream.CLOSED, 1])
    // The next hangs too: one more is tried.
    vi.advanceTimersByTime(20_000)
    expect(Stream.opened.length).toBeGreaterThan(2)
    expect(gaps).toBe(0)
    Stream.opened.at(-1)!.says('open')
    expect(gaps).toBe(1)
    expect(states.at(-1)).toBe('live')
  })

  it('that was refused is lost, and not tried for ever', () => {
    Stream.opened[0]!.close()
    Stream.opened[0]!.says('error')
    vi.advanceTimersByTime(120_000)
    expect(states).toEqual(['live', 'lost'])
    expect(Stream.opened).toHaveLength(1)
  })
})
