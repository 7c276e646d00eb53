import fc from 'fast-check'
import { expect, it } from 'vitest'
import { reachesOf } from './reach.ts'

const reaches = (
  bars: readonly { readonly left: number; readonly width: number; readonly lane?: number }[],
) => reachesOf(bars.map((each) => ({ lane: 0, ...each })))

it('leaves a bar alone that is wide enough, and lets a short one reach into free space', () => {
  expect(reaches([{ left: 0, width: 24 }])).toEqual([{ left: 0, right: 0 }])
  expect(reaches([{ left: 50, width: 4 }])).toEqual([{ left: 10, right: 10 }])
})

it('reaches into nothing where the next bar begins at once, and into half of what lies between', () => {
  const bars = [
    { left: 0, width: 100 },
    { left: 100, width: 8 },
    { left: 114, width: 4 },
    { left: 118, width: 60 },
  ]
  expect(reaches(bars)).toEqual([
    { left: 0, right: 0 },
    { left: 0, right: 3 },
    { left: 3, right: 0 },
    { left: 0, right: 0 },
  ])
})

it('asks the bars of its own lane only', () => {
  const beside = [
    { left: 40, width: 30, lane: 1 },
    { left: 50, width: 4 },
  ]
  expect(reaches(beside)[1]).toEqual({ left: 10, right: 10 })
})

it('never lets two bars of a lane be taken hold of at one place', () => {
  const px = fc.integer({ min: 3, max: 200 })
  const lane = fc
    .array(fc.record({ gap: fc.integer({ min: 0, max: 60 }), width: px }), { maxLength: 12 })
    .map((parts) => {
      let at = 0
      return parts.map(({ gap, width }) => {
        const left = at + gap
        at = left + width
        return { left, width }
      })
    })
  fc.assert(
    fc.property(lane, (bars) => {
      const found = reaches(bars)
      for (const [i, { left, width }] of bars.entries()) {
        const next = bars[i + 1]
        if (!next) continue
        expect(left + width + found[i]!.right).toBeLessThanOrEqual(next.left - found[i + 1]!.left)
      }
    }),
  )
})
