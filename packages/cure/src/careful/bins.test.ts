import { describe, expect, it } from 'vitest'
import { cutIntoBins, likeliest, minutesAfter, panelOf, progressOf, reachedOf, wholeRange } from './bins.ts'

describe('the bins of a panel’s lag', () => {
  it.each([
    ['a quick panel', 4, 1.6, 240],
    ['a slow one', 150, 60, 300],
    ['one that nobody knows', null, 1e-4, 240],
  ])('leave no lag of %s out, and lap over nowhere', (_, tau, fastest, slowest) => {
    const bins = cutIntoBins(wholeRange(tau), tau)
    expect(bins).toHaveLength(16)
    expect(bins[0]!.fastMinutes).toBeCloseTo(fastest, 9)
    expect(bins.at(-1)!.slowMinutes).toBeCloseTo(slowest, 9)
    for (const [i, bin] of bins.entries()) {
      expect(bin.slowMinutes).toBeGreaterThan(bin.fastMinutes)
      if (i > 0) expect(bin.fastMinutes).toBe(bins[i - 1]!.slowMinutes)
    }
    // One ratio, but for the bin that holds all that is quicker than any panel.
    const ratios = bins.slice(tau === null ? 1 : 0).map((bin) => bin.slowMinutes / bin.fastMinutes)
    for (const ratio of ratios) expect(ratio).toBeCloseTo(ratios[0]!, 9)
  })

  it.each([4, 60, 150])(
    'expect a panel of %i min as its own figures say, until readings say otherwise',
    (tau) => {
      const bins = cutIntoBins(wholeRange(tau), tau)
      const usual = bins.filter((bin) => bin.expectedMinutes === tau)
      expect(usual).toHaveLength(1)
      expect(usual[0]!.fastMinutes).toBeLessThanOrEqual(tau)
      expect(usual[0]!.slowMinutes).toBeGreaterThan(tau)
      expect(likeliest(bins)).toBe(usual[0])
      for (const bin of bins) {
        // Every other one is expected in its middle, as far off as its folds are.
        if (bin !== usual[0])
          expect(bin.expectedMinutes).toBeCloseTo(Math.sqrt(bin.fastMinutes * bin.slowMinutes), 9)
        const folds = Math.log(Math.max(2, bin.expectedMinutes) / tau)
        expect(bin.misfit).toBeCloseTo(folds ** 2, 9)
      }
    },
  )

  it('holds the usual lag in the bin that begins there, not in the one that ends there', () => {
    const whole = wholeRange(4)
    const edge = cutIntoBins(whole, 4)[6]!.fastMinutes
    const bins = cutIntoBins(whole, edge)
    expect(bins.filter((bin) => bin.fastMinutes <= edge && edge < bin.slowMinutes)).toHaveLength(1)
    expect(bins.filter((bin) => bin.expectedMinutes === edge)).toHaveLength(1)
  })

  it('expects metal that nobody knows to be as warm as its air', () => {
    const bins = cutIntoBins(wholeRange(null), null)
    expect(likeliest(bins)).toBe(bins[0])
    expect(bins[0]!.expectedMinutes).toBe(1e-4)
    expect(bins[0]!.slowMinutes).toBe(2)
    expect(bins[0]!.misfit).toBe(0)
  })

  it('are told by the slowest on the cold line, the quickest on the warm, the likeliest between', () => {
    const bins = cutIntoBins(wholeRange(4), 4).slice(0, 3)
    for (const [n, bin] of bins.entries()) {
      bin.panelC = [10 - n, 20 + n, 30 + n]
      bin.progress = [0.5 - n / 10, 0.6 + n / 10, 0.7 + n / 10, ...bin.progress.slice(3)]
      bin.reachedAtMs = [100 + n, 200 + n, 300 - n, null, null, n === 1 ? 7 : null, null, null, null]
      bin.misfit = n === 1 ? 0 : 1
    }
    expect([0, 1, 2].map((line) => progressOf(bins, line))).toEqual([0.3, 0.7, expect.closeTo(0.9, 12)])
    expect([0, 1, 2].map((line) => reachedOf(bins, line))).toEqual([102, 201, 298])
    // Not reached on the cold line while one bin has not; on the warm one as soon as one has.
    bins[2]!.reachedAtMs[0] = null
    expect([0, 5].map((figure) => reachedOf(bins, figure))).toEqual([null, 7])
    expect(panelOf(bins)).toEqual([8, 21, 32])
  })

  it('counts the minutes after the application alone', () => {
    const minute = 60_000
    expect(minutesAfter(10 * minute, 0, 30 * minute)).toBe(20)
    expect(minutesAfter(10 * minute, 15 * minute, 30 * minute)).toBe(15)
    expect(minutesAfter(10 * minute, 0, 5 * minute)).toBe(0)
  })
})
