import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { allocate, type Candidate } from './allocation.ts'

const piece = (id: string, changes: Partial<Candidate> = {}): Candidate => {
  const effectiveExpiryMs = changes.effectiveExpiryMs ?? 1000
  return {
    id,
    state: 'sealed',
    remainingMl: 200,
    receivedAtMs: 0,
    effectiveExpiryMs,
    expiryOnceOpenedMs: effectiveExpiryMs,
    ...changes,
  }
}
const need = { amountMl: 150, nozzleMl: 0, atMs: 500 }

describe('allocate', () => {
  it('takes the one that dies first among those that live then', () => {
    const candidates = [
      piece('late'),
      piece('dead', { effectiveExpiryMs: 500 }),
      piece('next', { effectiveExpiryMs: 600 }),
    ]
    expect(allocate(candidates, need)).toEqual({ kind: 'enough', shares: [{ id: 'next', amountMl: 150 }] })
  })

  it('takes an opened one that suffices before a sealed one that dies sooner', () => {
    const candidates = [
      piece('sealed', { effectiveExpiryMs: 600 }),
      piece('opened', { state: 'opened', remainingMl: 150 }),
    ]
    expect(allocate(candidates, need)).toEqual({ kind: 'enough', shares: [{ id: 'opened', amountMl: 150 }] })
  })

  it('joins several where one does not suffice', () => {
    const candidates = [
      piece('b', { remainingMl: 100 }),
      piece('a', { remainingMl: 60, effectiveExpiryMs: 700, state: 'opened' }),
    ]
    expect(allocate(candidates, need)).toEqual({
      kind: 'enough',
      shares: [
        { id: 'a', amountMl: 60 },
        { id: 'b', amountMl: 90 },
      ],
    })
  })

  it('says what is missing, and takes nothing', () => {
    expect(allocate([piece('a', { remainingMl: 40 })], need)).toEqual({
      kind: 'short',
      availableMl: 40,
      missingMl: 110,
    })
    expect(() => allocate([], { amountMl: 0, nozzleMl: 0, atMs: 0 })).toThrow('amountMl is 0')
  })

  it('leaves what would only fill a nozzle, and fills one more with each change of cartridge', () => {
    const candidates = [
      piece('scrap', { remainingMl: 8, state: 'opened', effectiveExpiryMs: 600 }),
      piece('half', { remainingMl: 100, state: 'opened', effectiveExpiryMs: 700 }),
      piece('full', { effectiveExpiryMs: 800 }),
    ]
    expect(allocate(candidates, { ...need, nozzleMl: 8 })).toEqual({
      kind: 'enough',
      shares: [
        { id: 'half', amountMl: 100 },
        { id: 'full', amountMl: 58 },
      ],
    })
    expect(
      allocate([piece('a', { remainingMl: 100 }), piece('b', { remainingMl: 55 })], { ...need, nozzleMl: 8 }),
    ).toEqual({ kind: 'short', availableMl: 147, missingMl: 3 })
    expect(() => allocate([], { ...need, nozzleMl: -1 })).toThrow('nozzleMl is -1')
  })

  const candidate = fc.record({
    state: fc.constantFrom('sealed' as const, 'opened' as const),
    remainingMl: fc.integer({ min: 0, max: 400 }),
    effectiveExpiryMs: fc.integer({ min: 0, max: 1000 }),
    expiryOnceOpenedMs: fc.integer({ min: 0, max: 1000 }),
    receivedAtMs: fc.integer({ min: 0, max: 10 }),
  })

  it('never hands out what is dead then or more than there is, in whatever order it is asked', () => {
    fc.assert(
      fc.property(
        fc.array(candidate, { maxLength: 12 }),
        fc.integer({ min: 1, max: 900 }),
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 0, max: 1000 }),
        (list, amountMl, nozzleMl, atMs) => {
          const candidates = list.map((each, i) => ({ ...each, id: `c${i}` }))
          const allocation = allocate(candidates, { amountMl, nozzleMl, atMs })
          expect(allocate(candidates.toReversed(), { amountMl, nozzleMl, atMs })).toEqual(allocation)
          const alive = candidates.filter(
            (each) =>
              each.effectiveExpiryMs > atMs && each.expiryOnceOpenedMs > atMs && each.remainingMl > nozzleMl,
          )
          const inAll = alive.reduce((sum, each) => sum + each.remainingMl, 0)
          const available = inAll - nozzleMl * Math.max(0, alive.length - 1)
          expect(allocation.kind).toBe(available >= amountMl ? 'enough' : 'short')
          if (allocation.kind === 'short') return
          expect(allocation.shares.reduce((sum, share) => sum + share.amountMl, 0)).toBe(
            amountMl + nozzleMl * (allocation.shares.length - 1),
          )
          for (const share of allocation.shares) {
            expect(share.amountMl).toBeLessThanOrEqual(
              alive.find(({ id }) => id === share.id)?.remainingMl ?? -1,
            )
          }
        },
      ),
    )
  })
})

describe('among cartridges that expire at one instant', () => {
  const enough = { amountMl: 50, nozzleMl: 0, atMs: 500 }
  const first = (...candidates: Candidate[]) => {
    const taken = [candidates, candidates.toReversed()].map((each) => {
      const answer = allocate(each, enough)
      return answer.kind === 'enough' ? answer.shares[0]!.id : answer.kind
    })
    expect(taken[0]).toBe(taken[1])
    return taken[0]
  }

  it('an opened one goes first, also where it alone does not suffice', () => {
    expect(first(piece('a'), piece('b', { state: 'opened', remainingMl: 20 }))).toBe('b')
    expect(first(piece('b'), piece('a', { state: 'opened', remainingMl: 20 }))).toBe('a')
  })

  it('then the one that was received first', () => {
    expect(first(piece('a', { receivedAtMs: 2 }), piece('b', { receivedAtMs: 1 }))).toBe('b')
    expect(first(piece('a', { receivedAtMs: 1 }), piece('b', { receivedAtMs: 2 }))).toBe('a')
  })

  it('then by its identifier, so that one question has one answer', () => {
    expect(first(piece('b'), piece('a'), piece('c'))).toBe('a')
  })

  it('none is handed out that expires at the instant of use once it is opened', () => {
    const at = (expiryOnceOpenedMs: number) => allocate([piece('a', { expiryOnceOpenedMs })], enough).kind
    expect([at(500), at(501)]).toEqual(['short', 'enough'])
  })
})
