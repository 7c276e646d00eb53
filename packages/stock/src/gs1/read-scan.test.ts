import { describe, expect, it } from 'vitest'
import { SEPARATOR } from './element-string.ts'
import { readScan } from './read-scan.ts'

const YEAR = 2026
const GTIN = '09520123456788'
const NOTHING_ELSE = {
  kind: 'label',
  lotNumber: null,
  expiry: null,
  expiryPrecision: 'day',
  producedOn: null,
  serial: null,
  count: null,
}

describe('a scan', () => {
  it.each(['', '   ', '\t\n'])('of nothing says so: %j', (text) => {
    expect(readScan(text, YEAR)).toEqual({ kind: 'fault', message: 'Nothing was scanned' })
  })

  it.each([
    ['96385074', '00000096385074'],
    ['614141000036', '00614141000036'],
    ['9520123456788', GTIN],
    [GTIN, GTIN],
    [` ${GTIN} \n`, GTIN],
    [']E496385074', '00000096385074'],
  ])('of a bare GTIN %j is the product and nothing else', (text, gtin) => {
    const scan = readScan(text, YEAR)
    // A zero in front leaves the check digit right.
    expect(scan).toEqual({
      ...NOTHING_ELSE,
      gtin: gtin.slice(-14),
      elements: new Map([['01', gtin.slice(-14)]]),
    })
  })

  it.each([
    // Eight digits and more are no GTIN-8 with something beside it.
    ['1712345678', /^The label (cannot be read|names no product)/],
    ['963850741', /^The label (cannot be read|names no product)/],
    ['X96385074', /^The label (cannot be read|names no product)/],
    ['96385074X', /^The label (cannot be read|names no product)/],
    ['095201234567881', /^The label (cannot be read|names no product)/],
    ['952012345678X', /^The label (cannot be read|names no product)/],
  ])('of %s is none', (text, message) => {
    const scan = readScan(text, YEAR)
    expect(scan.kind).toBe('fault')
    expect('message' in scan ? scan.message : '').toMatch(message)
  })

  it('that begins with FNC1 is an element string, also where its digits could be a GTIN', () => {
    // (11) 310227: eight digits whose last is no check digit.
    for (const text of [
      `${SEPARATOR}11310228`,
      ']C111310227',
      ']d211310227',
      ']Q311310227',
      ']J111310227',
      ']e011310227',
    ])
      expect(readScan(text, YEAR)).toEqual({
        kind: 'fault',
        message: 'The label names no product: it has no GTIN',
      })
    expect(readScan('11310227', YEAR)).toMatchObject({
      kind: 'fault',
      message: 'The check digit of 11310227 is wrong: scan or type it again',
    })
  })

  it.each([
    `01${GTIN}10LOT`,
    `${SEPARATOR}01${GTIN}10LOT`,
    `]C101${GTIN}10LOT`,
    `]d201${GTIN}10LOT${SEPARATOR}`,
    `(01)${GTIN}(10)LOT`,
    `https://a.example/01/${GTIN}/10/LOT`,
    `HTTP://A.EXAMPLE/01/${GTIN}/10/LOT`,
    `]Q1https://a.example/01/${GTIN}/10/LOT`,
  ])('of product and lot is the same however it comes: %j', (text) => {
    expect(readScan(text, YEAR)).toMatchObject({ ...NOTHING_ELSE, gtin: GTIN, lotNumber: 'LOT' })
  })

  it('tells what a case holds, when it was made, and how many', () => {
    expect(readScan(`02${GTIN}112602283712`, YEAR)).toMatchObject({
      gtin: GTIN,
      producedOn: '2026-02-28',
      expiry: null,
      count: 12,
    })
    expect(readScan(`01${GTIN}17270200305`, YEAR)).toMatchObject({
      expiry: '2027-02-28',
      expiryPrecision: 'month',
      count: 5,
      producedOn: null,
    })
  })

  it('keeps what is in brackets within a value apart from what is an identifier', () => {
    expect(readScan(`(01)${GTIN}(10)LOT(21)SN`, YEAR)).toMatchObject({ lotNumber: 'LOT', serial: 'SN' })
  })
})
