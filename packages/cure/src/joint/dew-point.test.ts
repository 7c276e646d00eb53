import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dewPointC, relativeHumidityPercent } from './dew-point.ts'

describe('the dew point', () => {
  it.each([
    [() => dewPointC(-41, 50), 'airC is -41, but must be -40 to 60 degC: measure the air of the bay'],
    [() => dewPointC(61, 50), 'airC is 61, but must be -40 to 60 degC: measure the air of the bay'],
    [
      () => dewPointC(20, 0),
      'relativeHumidityPercent is 0, but must be above 0, up to 100 %: check the hygrometer',
    ],
    [
      () => dewPointC(20, Number.NaN),
      'relativeHumidityPercent is NaN, but must be above 0, up to 100 %: check the hygrometer',
    ],
    [
      () => dewPointC(20, 101),
      'relativeHumidityPercent is 101, but must be 0 to 100 %: check the hygrometer',
    ],
    [
      () => relativeHumidityPercent(61, 10),
      'airC is 61, but must be -40 to 60 degC: measure the air of the bay',
    ],
    [
      () => relativeHumidityPercent(20, 21),
      'dewPoint is 21, but must be -100 to 20 degC: a dew point is never above the air',
    ],
    [
      () => relativeHumidityPercent(20, -101),
      'dewPoint is -101, but must be -100 to 20 degC: a dew point is never above the air',
    ],
  ] as const)('of what cannot be names the field, the unit and the fix (%#)', (refused, words) => {
    expect(refused).toThrow(new RangeError(words))
  })

  it('is taken at the ends of its range: saturated air is at its dew point', () => {
    for (const airC of [-40, 0, 60]) expect(dewPointC(airC, 100)).toBeCloseTo(airC, 9)
  })

  it('leads back to the humidity that it came from', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 60, noNaN: true }),
        // At 100 % the two are the same but for the last bit.
        fc.double({ min: 1, max: 99.9, noNaN: true }),
        (airC, percent) => {
          expect(relativeHumidityPercent(airC, dewPointC(airC, percent))).toBeCloseTo(percent, 6)
        },
      ),
    )
  })
})
