import { expect, it } from 'vitest'
import { withDecimalPoint } from './decimal-comma.ts'

it('takes a comma for the decimal sign', () => {
  expect(withDecimalPoint('21,5')).toBe('21.5')
  expect(withDecimalPoint('-5,25 °C')).toBe('-5.25 °C')
  expect(withDecimalPoint('0,125 mm')).toBe('0.125 mm')
  expect(withDecimalPoint('7,')).toBe('7.')
})

it('leaves alone what may group thousands, and what has none', () => {
  for (const text of ['1,440', '1,234.5', '1,234,567', '21.5', '21', ''])
    expect(withDecimalPoint(text)).toBe(text)
})
