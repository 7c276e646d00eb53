import { expect, it } from 'vitest'
import { amountText } from './amount-text.ts'

it('says what went on, what the joint needs, and by whom and why less is confirmed', () => {
  const need = { neededMl: 52.97, by: 'Sam Pell' }
  expect(amountText(40, undefined)).toBe('40 mL')
  expect(amountText(52.97, { ...need, reason: null })).toBe('53 mL; the joint needs 53 mL')
  expect(amountText(45.5, { ...need, reason: 'Half a flange' })).toBe(
    '45.5 mL; the joint needs 53 mL. Less than needed, confirmed by Sam Pell because: Half a flange',
  )
})
