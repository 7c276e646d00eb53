import { describe, expect, it } from 'vitest'
import { beadName, metresText, reachRows } from './reach.ts'

const rows = reachRows({ cartridgeMl: 200, nozzleHoldUpMl: 5, glassBeadMm: 0.25 })

describe('reachRows', () => {
  it('takes nozzle and waste off, by the section of the bead', () => {
    const five = rows.find(({ bead }) => beadName(bead) === 'Round, 5 mm')
    // (200 - 5) mL x 0.9 over pi 5^2 / 4 = 19.635 mm2, which is 19.635 mL a metre.
    expect(five?.metres[0]).toBeCloseTo(175.5 / 19.635, 3)
    // 12 mm of skim coat, 0.25 mm thick, are 3 mL a metre more.
    expect(five?.metres[1]).toBeCloseTo(175.5 / 22.635, 3)
  })
  it('goes less far with a larger bead and with a wider skim coat', () => {
    const round = rows.filter(({ bead }) => bead.shape === 'round')
    for (const [i, { metres }] of round.entries()) {
      expect(metres.toSorted((a, b) => b - a)).toEqual(metres)
      if (i > 0) expect(metres[0]).toBeLessThan(round[i - 1]!.metres[0]!)
    }
  })
})

it('rounds down', () => {
  expect(metresText(8.999)).toBe('8.99 m')
  expect(metresText(0.3)).toBe('0.30 m')
})
