import { expect, it } from 'vitest'
import { withDecimalSign } from './decimal-comma.ts'

it('takes a comma for the decimal sign where a point is written, and a point where a comma is', () => {
  for (const [comma, point] of [
    ['21,5', '21.5'],
    ['-5,25 °C', '-5.25 °C'],
    ['0,125 mm', '0.125 mm'],
    ['7,', '7.'],
  ] as const) {
    expect(withDecimalSign(comma, '.')).toBe(point)
    expect(withDecimalSign(point, ',')).toBe(comma)
    expect(withDecimalSign(point, '.')).toBe(point)
    expect(withDecimalSign(comma, ',')).toBe(comma)
  }
})

it('leaves alone what may group thousands, and what has none', () => {
  for (const text of ['1,440', '1,234.5', '1,234,567', '21', ''])
    expect(withDecimalSign(text, '.')).toBe(text)
  for (const text of ['1.440', '1.234,5', '1.234.567', '21', ''])
    expect(withDecimalSign(text, ',')).toBe(text)
})
