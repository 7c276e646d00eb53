import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CODE_LETTERS, ownLabelText, readOwnLabel } from './own-label.ts'

const codes = fc
  .array(fc.constantFrom(...CODE_LETTERS.split('')), { minLength: 8, maxLength: 8 })
  .map((letters) => `${letters.slice(0, 4).join('')}-${letters.slice(4).join('')}`)

describe("a cartridge's own label", () => {
  it('reads back whatever it says, as an address and as a bare code', () => {
    fc.assert(
      fc.property(
        codes,
        fc.constantFrom(undefined, 'http://10.0.0.5:3000', 'https://x.example/sub/'),
        (code, url) => {
          expect(readOwnLabel(ownLabelText(code, url))).toBe(code)
        },
      ),
    )
  })

  it.each([
    ['4f7k92qx', '4F7K-92QX'],
    [' 4F7K 92QX ', '4F7K-92QX'],
    // Crockford: letters that look like digits are the digits.
    ['OI7L-92QX', '0171-92QX'],
    ['HTTP://SHOP.LOCAL/C/4F7K-92QX', '4F7K-92QX'],
  ])('takes %s as typed', (typed, code) => {
    expect(readOwnLabel(typed)).toBe(code)
  })

  it.each([
    ['eight digits, which may be a GTIN', '96385074'],
    ['a Digital Link', 'https://id.example/01/09520123456788/10/LOT1'],
    ['an element string', '010952012345678817310531'],
    ['an address of something else', 'https://x.example/d/4F7K-92QX'],
    ['U, which is in no code', '4F7K-92QU'],
    ['nothing', ''],
  ])('is not %s', (_what, text) => {
    expect(readOwnLabel(text)).toBeUndefined()
  })

  it('reads a code of eight digits with its hyphen, and no longer row of digits as one', () => {
    expect(readOwnLabel('9638-5074')).toBe('9638-5074')
    expect(readOwnLabel('96385074')).toBeUndefined()
    expect(readOwnLabel('X6385074')).toBe('X638-5074')
    expect(readOwnLabel('9638507X')).toBe('9638-507X')
  })

  it('is the bare code where no address is known, else one address however it ends', () => {
    expect(ownLabelText('4F7K-92QX', undefined)).toBe('4F7K-92QX')
    for (const url of ['https://x.example', 'https://x.example/', 'https://x.example///'])
      expect(ownLabelText('4F7K-92QX', url)).toBe('https://x.example/c/4F7K-92QX')
  })
})
