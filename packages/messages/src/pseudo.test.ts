import { IntlMessageFormat } from 'intl-messageformat'
import { expect, it } from 'vitest'
import { pseudo } from './pseudo.ts'

const said = (pattern: string, values: Record<string, string | number> = {}) =>
  new IntlMessageFormat(pseudo({ key: pattern })['key'] as string, 'en').format(values)

it('marks the ends, puts accents on letters and none on values, and is longer by 40 %', () => {
  expect(said('Save it now')).toBe('⟦Šávé ít ñów ·····⟧')
  expect(said('Cure of {name}', { name: 'sill' })).toBe('⟦Çúré óf sill ····⟧')
})

it('changes each form of a plural', () => {
  const pattern = '{n, plural, one{# joint} other{# joints}} left'
  expect(said(pattern, { n: 1 })).toMatch(/^⟦1 jóíñt léft ·+/)
  expect(said(pattern, { n: 2 })).toMatch(/^⟦2 jóíñtš léft ·+/)
})

it('marks what a tag encloses by itself', () => {
  const format = new IntlMessageFormat(pseudo({ key: 'See <b>all</b>' })['key'] as string, 'en')
  expect(format.format({ b: (children: string[]) => `[${children.join('')}]` } as never)).toBe(
    '⟦Šéé [⟦áll⟧] ···⟧',
  )
})
