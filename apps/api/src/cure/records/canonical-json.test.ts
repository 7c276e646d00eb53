import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonicalJson } from './canonical-json.ts'

describe('canonicalJson', () => {
  it('orders keys, at every depth, and writes instants in UTC', () => {
    const value = { b: [{ z: 1, a: null }], a: new Date('2031-05-07T12:00:00-04:00'), c: undefined }
    expect(canonicalJson(value)).toBe('{"a":"2031-05-07T16:00:00.000Z","b":[{"a":null,"z":1}]}')
  })

  it('holds the same value as JSON does, whatever the order of its keys', () => {
    const shuffled = (value: unknown): unknown => {
      if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
      return Object.fromEntries(
        Object.entries(value)
          .toReversed()
          .map(([key, each]) => [key, shuffled(each)]),
      )
    }
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value)
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)))
        expect(canonicalJson(shuffled(value))).toBe(text)
      }),
    )
  })

  it('refuses what JSON would silently turn into null', () => {
    expect(() => canonicalJson({ temperatureC: Number.NaN })).toThrow(/NaN cannot be written down/)
  })
})
