import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { BatchTimeline, CumulativeTimeline, UnaryTimeline, type Timeline } from './timeline.ts'

const requests = fc.array(
  fc.record({
    from: fc.integer({ min: 0, max: 60 }),
    length: fc.integer({ min: 1, max: 12 }),
    units: fc.integer({ min: 1, max: 3 }),
  }),
  { maxLength: 25 },
)

/** Books each request at the first minute the timeline offers; returns usage minute by minute. */
function fill(
  timeline: Timeline,
  list: readonly { from: number; length: number; units: number }[],
  used: number[],
): void {
  list.forEach(({ from, length, units }, owner) => {
    let at = from
    for (
      let next = timeline.conflict(at, at + length, units, -1);
      next >= 0;
      next = timeline.conflict(at, at + length, units, -1)
    ) {
      expect(next).toBeGreaterThan(at)
      at = next
    }
    timeline.add(at, at + length, units, -1, owner)
    for (let minute = at; minute < at + length; minute++) used[minute] = (used[minute] ?? 0) + units
  })
}

describe('timelines', () => {
  it('offers the first free minute and no other, whatever is booked', () => {
    fc.assert(
      fc.property(
        requests,
        fc.integer({ min: 0, max: 80 }),
        fc.integer({ min: 1, max: 9 }),
        (list, from, length) => {
          for (const capacity of [1, 3]) {
            const timeline = capacity === 1 ? new UnaryTimeline(null, 0) : new CumulativeTimeline(capacity)
            const used: number[] = []
            fill(
              timeline,
              list.map((entry) => ({ ...entry, units: capacity === 1 ? 1 : entry.units })),
              used,
            )
            const isFree = (at: number): boolean =>
              Array.from({ length }, (_, k) => used[at + k] ?? 0).every((units) => units < capacity)
            let first = from
            while (!isFree(first)) first++
            expect(timeline.gap(from, length, 1)).toBe(first)
            expect(timeline.conflict(first, first + length, 1, -1)).toBe(-1)
            expect(Math.max(0, ...used.filter((units) => units !== undefined))).toBeLessThanOrEqual(capacity)
          }
        },
      ),
    )
  })

  it('is as before when a booking is taken back', () => {
    const timeline = new CumulativeTimeline(2)
    timeline.add(0, 10, 2)
    timeline.add(20, 30, 1)
    timeline.add(5, 25, 0)
    timeline.remove(0, 10, 2)
    expect(timeline.gap(0, 20, 2)).toBe(0)
    expect(timeline.gap(1, 20, 2)).toBe(30)
  })

  it('keeps set-up clear on both sides of a stay', () => {
    const setup = Int32Array.of(0, 5, 7, 0)
    const timeline = new UnaryTimeline(setup, 2)
    timeline.add(20, 30, 1, 0, 0)
    expect(timeline.conflict(30, 40, 1, 1)).toBe(35)
    expect(timeline.conflict(35, 40, 1, 1)).toBe(-1)
    expect(timeline.conflict(5, 14, 1, 1)).toBe(30)
    expect(timeline.conflict(5, 13, 1, 1)).toBe(-1)
    expect(timeline.conflict(30, 40, 1, 0)).toBe(-1)
  })

  it('lets a batch be joined by its family, at its start, while there is room', () => {
    const oven = new BatchTimeline(3)
    oven.add(10, 20, 2, 0, 0)
    expect(oven.conflict(10, 20, 1, 0)).toBe(-1)
    expect(oven.conflict(10, 20, 2, 0)).toBe(20)
    expect(oven.conflict(10, 20, 1, 1)).toBe(20)
    expect(oven.conflict(4, 14, 1, 0)).toBe(10)
    expect(oven.conflict(12, 22, 1, 0)).toBe(20)
  })
})
