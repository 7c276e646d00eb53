import { describe, expect, it } from 'vitest'
import type { Draft } from './application.ts'
import { isSame } from './asked.ts'

const asked: Draft = {
  cartridgeIds: ['a'],
  dispenserId: 'd',
  bayId: 'b',
  panelC: 22,
  thermometer: { source: 'infrared', instrumentId: '', accuracyC: undefined },
  airC: 22,
  humidityPercent: 45,
  hygrometerId: '',
  airReadWith: '',
  amountMl: 70,
  prepared: ['bareMetal', 'dryFit'],
  confirmed: [],
  shortBecause: '',
  overrides: {},
}

describe('an answer', () => {
  it('is of the form as it was asked about', () => {
    expect(isSame('whole', asked, { ...asked, humidityPercent: 80 })).toBe(false)
    expect(isSame('whole', asked, { ...asked, prepared: ['bareMetal'] })).toBe(false)
  })

  it('still stands when something is written against it', () => {
    const written: Draft = { ...asked, overrides: { a: 'x' }, confirmed: ['aboveAir'], shortBecause: 'y' }
    expect(isSame('whole', asked, written)).toBe(true)
  })
})

describe('a question', () => {
  it('belongs to the values that it was asked about', () => {
    expect(isSame('readings', asked, { ...asked, panelC: 71.6 })).toBe(false)
    expect(isSame('readings', asked, { ...asked, bayId: '' })).toBe(false)
    expect(isSame('amount', asked, { ...asked, amountMl: 12 })).toBe(false)
  })

  it('stays open when something else is changed', () => {
    expect(isSame('readings', asked, { ...asked, amountMl: 12 })).toBe(true)
    expect(isSame('amount', asked, { ...asked, panelC: 12 })).toBe(true)
  })
})
