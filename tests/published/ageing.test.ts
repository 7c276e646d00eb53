import { warmStorageLossMs } from '@clampclock/stock'
import { describe, expect, it } from 'vitest'

const DAY = 86_400_000

/**
 * ASTM F1980: AAF = Q10^((T_AA - T_RT)/10), real time = AAF x accelerated time. A cartridge that lies `days` at `warmC`
 * has aged AAF x days, so it has lost (AAF - 1) x days beyond the clock.
 */
describe('shelf life in warm storage against the ageing factor of ASTM F1980', () => {
  it.each([
    {
      q10: 2,
      warmC: 55,
      labelC: 25,
      days: 91.25,
      ages: 730,
      source: 'public worked example: 91.25 d at 55 degC age as 730 d at 25 degC',
    },
    { q10: 2, warmC: 55, labelC: 22, days: 37.06, ages: 365, source: 'F1980 style example, computed' },
    { q10: 2, warmC: 50, labelC: 25, days: 64.52, ages: 365, source: 'formula, computed' },
    { q10: 1.8, warmC: 55, labelC: 22, days: 52.47, ages: 365, source: 'formula, computed' },
    {
      q10: 3,
      warmC: 25,
      labelC: 5,
      days: 18 / 24,
      ages: 162 / 24,
      source: 'USP <1160>, Q10 example, from memory: 18 h at 25 degC are 162 h at 5 degC',
    },
  ])(
    '$days d at $warmC degC age as $ages d at $labelC degC, Q10 $q10 ($source)',
    ({ q10, warmC, labelC, days, ages }) => {
      const readings = [
        { atMs: 0, temperatureC: warmC },
        { atMs: days * DAY, temperatureC: warmC },
      ]
      const lost = warmStorageLossMs(readings, { labelStorageC: labelC, q10 }, 0, days * DAY)
      expect(days + lost / DAY).toBeCloseTo(ages, 0)
      expect(Math.abs(days + lost / DAY - ages) / ages).toBeLessThan(3e-4)
    },
  )

  it('integrates a ramp exactly: 20 to 60 degC at 4 degC/min, reference 23 (closed form: 43.9437 min in all)', () => {
    const minute = 60_000
    const ramp = [
      { atMs: 0, temperatureC: 20 },
      { atMs: 10 * minute, temperatureC: 60 },
    ]
    // Below the label temperature time runs as the clock does, where the plain formula would count less.
    const below = 0.75
    const formulaBelow = (10 / (4 * Math.LN2)) * (1 - 2 ** -0.3)
    const lost = warmStorageLossMs(ramp, { labelStorageC: 23, q10: 2 }, 0, 10 * minute) / minute
    expect(10 + lost - below + formulaBelow).toBeCloseTo(43.9437, 3)
  })
})
