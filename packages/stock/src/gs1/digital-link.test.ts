import { describe, expect, it } from 'vitest'
import { parseDigitalLink } from './digital-link.ts'

const YEAR = 2026
const GTIN = '09520123456788'
const read = (link: string) => {
  const parsed = parseDigitalLink(link, YEAR)
  return parsed.kind === 'fault' ? parsed.message : Object.fromEntries(parsed.elements)
}

describe('a GS1 Digital Link', () => {
  it.each([
    `http://a.example/01/${GTIN}`,
    `https://a.example/01/${GTIN}`,
    `HTTP://A.EXAMPLE/01/${GTIN}`,
    `HTTPS://A.EXAMPLE/01/${GTIN}`,
  ])('is a web address in one case of letters: %s', (link) => {
    expect(read(link)).toEqual({ '01': GTIN })
  })

  it.each([
    `see https://a.example/01/${GTIN}`,
    `SEE HTTPS://A.EXAMPLE/01/${GTIN}`,
    `httpx://a.example/01/${GTIN}`,
    `https:///01/${GTIN}`,
    `HTTPS:// /01/${GTIN}`,
    'https://a.example',
    `https://[bad/01/${GTIN}`,
  ])('%s is none', (link) => {
    expect(read(link)).toBe('it is no web address')
  })

  it('has a key in its path, however long the stem before it', () => {
    expect(read(`https://a.example/shop/of/01/01/${GTIN}`)).toEqual({ '01': GTIN })
    for (const path of ['', 'shelf', 'shop/10/LOT', `01`, `x/01/${GTIN}/10`])
      expect(read(`https://a.example/${path}`)).toBe('its path has no GS1 key, such as /01/ and a GTIN')
  })

  it('has what qualifies a trade item in the order of the standard, and nothing after a logistic unit', () => {
    expect(read(`https://a.example/01/${GTIN}/22/V/10/L/21/S/235/T`)).toEqual({
      '01': GTIN,
      22: 'V',
      10: 'L',
      21: 'S',
      235: 'T',
    })
    expect(read(`https://a.example/01/${GTIN}/21/S/10/L`)).toBe('/10/ may not stand there in the path')
    expect(read(`https://a.example/01/${GTIN}/10/L/10/L`)).toBe('/10/ may not stand there in the path')
    expect(read('https://a.example/00/952012345678912345/10/L')).toBe('/10/ may not stand there in the path')
  })

  it('takes a GTIN of 8 or 12 digits as it is printed, and pads nothing else', () => {
    expect(read('https://a.example/01/96385074')).toEqual({ '01': '00000096385074' })
    expect(read('https://a.example/01/614141000036')).toEqual({ '01': '00614141000036' })
    expect(read('https://a.example/01/9520123456788')).toMatch(/^\(01\) '9520123456788' is too short/)
    expect(read(`https://a.example/01/${GTIN}/10/12345678`)).toEqual({ '01': GTIN, 10: '12345678' })
  })

  it('passes over words of other standards in its query, and no number that is no identifier', () => {
    expect(read(`https://a.example/01/${GTIN}?&17=270331;linkType=pip&a10=x&10b=y&`)).toEqual({
      '01': GTIN,
      17: '270331',
    })
    expect(read(`https://a.example/01/${GTIN}?18=1`)).toBe("'18' is no GS1 application identifier")
    expect(read(`https://a.example/01/${GTIN}?10`)).toBe('(10) has no value')
  })

  it('says what is badly encoded, and what stands there twice otherwise', () => {
    expect(read(`https://a.example/01/${GTIN}/10/%E0%A4`)).toBe('(10) is badly encoded')
    expect(read(`https://a.example/01/${GTIN}/10/L?10=M`)).toBe(
      '(10) stands in the link twice, with different values',
    )
    expect(read(`https://a.example/01/${GTIN}/10/L?10=L`)).toEqual({ '01': GTIN, 10: 'L' })
  })
})
