import { describe, expect, it } from 'vitest'
import { inEnglish } from '../../foundation/words/words.ts'
import { applicationReason } from './application-reason.ts'

describe('applicationReason', () => {
  const fault = {
    kind: 'nearDewPoint',
    panelC: 12.8,
    panelAccuracyC: 1,
    dewPointC: 9.7,
    marginC: 2.1,
    requiredMarginC: 3,
  } as const

  it('speaks in the unit of the shop, and knows a difference from a temperature', () => {
    expect(inEnglish(applicationReason(fault, 'C').message)).toBe(
      'The panel is at 12.8 °C (± 1.0 °C): 2.1 °C above the dew point of 9.7 °C, and 3.0 °C are needed',
    )
    // 12.8 degC is 55.0 degF, 9.7 is 49.5; a difference of 3 degC is 5.4 degF, without the offset.
    expect(inEnglish(applicationReason(fault, 'F').message)).toBe(
      'The panel is at 55.0 °F (± 1.8 °F): 3.8 °F above the dew point of 49.5 °F, and 5.4 °F are needed',
    )
  })
})
