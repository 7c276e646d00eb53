import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DailyDemand } from './daily-demand.ts'
import { wasteForecast, type Perishable } from './waste-forecast.ts'

const total = (wastes: readonly { expectedMl: number }[]) =>
  wastes.reduce((sum, { expectedMl }) => sum + expectedMl, 0)
const volume = (stock: readonly Perishable[]) => stock.reduce((sum, { volumeMl }) => sum + volumeMl, 0)

/** Of 200 mL: the grid shares an amount between two bins, and so errs by less than one. */
const BIN_ML = 200 / 239

const pieces = fc
  .array(
    fc.record({ volumeMl: fc.integer({ min: 10, max: 400 }), usableDays: fc.integer({ min: 0, max: 90 }) }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((rows) => rows.map((row, i) => ({ id: `c${i}`, ...row })))
const demands = fc.record({
  probability: fc.integer({ min: 1, max: 100 }).map((percent) => percent / 100),
  sizesMl: fc.array(fc.integer({ min: 5, max: 200 }), { minLength: 1, maxLength: 5 }),
})

describe('wasteForecast', () => {
  it('loses everything that nobody uses, and nothing that is used up the day before', () => {
    const stock = [{ id: 'c', volumeMl: 200, usableDays: 20 }]
    expect(wasteForecast(stock, null)).toEqual([{ id: 'c', expectedMl: 200, probability: 1 }])
    const steady = { probability: 1, sizesMl: [10] }
    expect(wasteForecast(stock, steady)[0]!.expectedMl).toBeLessThan(BIN_ML)
    expect(wasteForecast(stock, { probability: 1, sizesMl: [5] })[0]!.expectedMl).toBeCloseTo(100, 6)
  })

  it('uses the soonest to die first', () => {
    const stock = [
      { id: 'late', volumeMl: 100, usableDays: 40 },
      { id: 'soon', volumeMl: 100, usableDays: 10 },
    ]
    const [late, soon] = wasteForecast(stock, { probability: 1, sizesMl: [4] })
    expect(soon!.expectedMl).toBeCloseTo(60, 6)
    // 30 days are left for it.
    expect(late!.expectedMl).toBeCloseTo(0, 6)
  })

  it('takes what is booked before its day as used, and not twice', () => {
    const stock = [{ id: 'c', volumeMl: 100, usableDays: 7 }]
    expect(wasteForecast(stock, null, [{ day: 6, amountMl: 30 }])[0]!.expectedMl).toBeCloseTo(70, 6)
    expect(wasteForecast(stock, null, [{ day: 7, amountMl: 30 }])[0]!.expectedMl).toBeCloseTo(100, 6)
    // The forecast of the week, 35 mL, is no more than what is booked in it.
    const demand = { probability: 1, sizesMl: [5] }
    expect(wasteForecast(stock, demand, [{ day: 3, amountMl: 40 }])[0]!.expectedMl).toBeCloseTo(60, 6)
  })

  it('is what 20,000 simulated futures lose on average, within four standard errors and a bin', () => {
    const stock = [
      { id: 'a', volumeMl: 150, usableDays: 9 },
      { id: 'b', volumeMl: 400, usableDays: 30 },
      { id: 'c', volumeMl: 300, usableDays: 31 },
      { id: 'd', volumeMl: 600, usableDays: 75 },
    ]
    const demand = { probability: 0.3, sizesMl: [12, 45, 90] }
    const runs = 20_000
    const random = lehmer(7)
    const sums = stock.map(() => ({ sum: 0, squares: 0 }))
    for (let run = 0; run < runs; run += 1)
      simulate(stock, demand, random).forEach((lost, i) => {
        sums[i]!.sum += lost
        sums[i]!.squares += lost * lost
      })
    wasteForecast(stock, demand).forEach(({ expectedMl }, i) => {
      const mean = sums[i]!.sum / runs
      const error = Math.sqrt((sums[i]!.squares / runs - mean * mean) / runs)
      expect(Math.abs(expectedMl - mean), stock[i]!.id).toBeLessThan(4 * error + 1450 / 239)
    })
  })

  it('never loses more than there is, and less when more is asked for', () => {
    fc.assert(
      fc.property(pieces, demands, (stock, demand) => {
        const wastes = wasteForecast(stock, demand)
        wastes.forEach(({ expectedMl, probability }, i) => {
          expect(expectedMl).toBeGreaterThanOrEqual(0)
          expect(expectedMl).toBeLessThanOrEqual(stock[i]!.volumeMl + 1e-9)
          expect(probability).toBeLessThanOrEqual(1 + 1e-9)
        })
        const busier = { ...demand, probability: Math.min(1, demand.probability * 1.5) }
        expect(total(wasteForecast(stock, busier))).toBeLessThanOrEqual(total(wastes) + 1e-6)
        const longer = stock.map((each) => ({ ...each, usableDays: each.usableDays + 5 }))
        expect(total(wasteForecast(longer, demand))).toBeLessThanOrEqual(total(wastes) + 1e-6)
        expect(total(wasteForecast(stock, null))).toBeCloseTo(volume(stock), 6)
      }),
    )
  })

  it('refuses volumes and bookings below zero', () => {
    expect(() => wasteForecast([{ id: 'c', volumeMl: -1, usableDays: 3 }], null)).toThrow('volumeMl of c')
    expect(() => wasteForecast([], null, [{ day: 0, amountMl: -1 }])).toThrow('booked[0].amountMl')
  })
})

function simulate(stock: readonly Perishable[], demand: DailyDemand, random: () => number): number[] {
  const left = stock.map(({ volumeMl }) => volumeMl)
  for (let day = 0; day < 75; day += 1) {
    if (random() >= demand.probability) continue
    let need = demand.sizesMl[Math.floor(random() * demand.sizesMl.length)]!
    stock.forEach(({ usableDays }, i) => {
      if (usableDays <= day) return
      const taken = Math.min(need, left[i]!)
      left[i]! -= taken
      need -= taken
    })
  }
  return left
}

/** Lehmer's generator, enough for a test. */
function lehmer(seed: number): () => number {
  let state = seed
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
}
