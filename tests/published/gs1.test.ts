import {
  checkDigit,
  dateOfYymmdd,
  gtin14,
  hasCheckDigit,
  parseDigitalLink,
  parseElementString,
  readScan,
} from '@clampclock/stock'
import { describe, expect, it } from 'vitest'

/** FNC1 as a scanner sends it. */
const GS = '\u001D'
const YEAR = 2026

const elements = (parsed: ReturnType<typeof parseElementString>) =>
  parsed.kind === 'elements' ? Object.fromEntries(parsed.elements) : parsed.message

describe('check digits (GS1 General Specifications 7.9; vectors of gs1/gs1-syntax-engine, lint_csum)', () => {
  it.each([
    ['629104150021', 3],
    ['123456789012', 8],
  ])('of %s is %d', (body, digit) => {
    expect(checkDigit(body)).toBe(digit)
  })
  it.each(['02345673', '416000336108', '12345678901231', '123456789012345675', '23456785'])(
    '%s is right',
    (digits) => {
      expect(hasCheckDigit(digits)).toBe(true)
    },
  )
  it.each([
    '12345673',
    '416000336109',
    '1234567890129',
    '12345678901232',
    '123456789012345670',
    '12345678 012345675',
    '',
  ])('%j is wrong', (digits) => {
    expect(hasCheckDigit(digits)).toBe(false)
  })
  it('stays right with zeros in front', () => {
    expect([gtin14('416000336108'), gtin14('02345673'), gtin14('123456789')]).toEqual([
      '00416000336108',
      '00000002345673',
      undefined,
    ])
  })
})

describe('dates (General Specifications; vectors of lint_yymmd0 and 7.12)', () => {
  it.each([
    ['270200', '2027-02-28'],
    ['280200', '2028-02-29'],
    ['260400', '2026-04-30'],
    ['200600', '2020-06-30'],
    ['240229', '2024-02-29'],
    ['000229', '2000-02-29'],
  ])('%s is %s', (text, date) => {
    expect(dateOfYymmdd(text, YEAR)).toBe(date)
  })
  it.each(['200010', '201310', '200132', '210229', '200431', 'x00131', '11111', '1111111'])(
    '%s is none',
    (text) => {
      expect(dateOfYymmdd(text, YEAR)).toBeUndefined()
    },
  )
  it.each([
    [26, 2026],
    [76, 2076],
    [77, 1977],
    [99, 1999],
    [0, 2000],
    [25, 2025],
    [51, 2051],
    [75, 2075],
  ])('year %d read in 2026 is %d', (yy, year) => {
    expect(dateOfYymmdd(`${String(yy).padStart(2, '0')}0101`, YEAR)).toBe(`${year}-01-01`)
  })
})

describe('element strings (vectors of gs1/gs1-syntax-engine, ai.c and scandata.c)', () => {
  it.each([
    ['01123456789012311012345', { '01': '12345678901231', 10: '12345' }],
    [`1012345${GS}11991225`, { 10: '12345', 11: '991225' }],
    [`011231231231233310ABC123${GS}99TESTING`, { '01': '12312312312333', 10: 'ABC123', 99: 'TESTING' }],
    [`0112345678901231${GS}991234`, { '01': '12345678901231', 99: '1234' }],
    [`991234${GS}`, { 99: '1234' }],
  ])('%j is read', (text, expected) => {
    expect(elements(parseElementString(text, YEAR))).toEqual(expected)
  })
  it.each(['0112345678901234', '011234567890123', '891234', '17999', '1714129', '1713131', '10'])(
    '%j is refused',
    (text) => {
      expect(parseElementString(text, YEAR).kind).toBe('fault')
    },
  )
})

describe('Digital Links (GS1 Digital Link specification; vectors of gs1/gs1-syntax-engine, dl.c)', () => {
  it.each([
    [
      'https://id.gs1.org/01/09520123456788/10/ABC1/21/12345?17=180426',
      { '01': '09520123456788', 10: 'ABC1', 21: '12345', 17: '180426' },
    ],
    [
      'https://id.gs1.org/00/952012345678912345?02=09520123456788&37=25&10=ABC123',
      { '00': '952012345678912345', '02': '09520123456788', 37: '25', 10: 'ABC123' },
    ],
    [
      'https://example.com/01/12312312312333/10/ABC%2B123?99=XYZ%2BQWERTY',
      { '01': '12312312312333', 10: 'ABC+123', 99: 'XYZ+QWERTY' },
    ],
    [
      'https://example.com/some/stem/01/12312312312326/22/ABC/10/DEF/21/GHI?95=INT',
      { '01': '12312312312326', 22: 'ABC', 10: 'DEF', 21: 'GHI', 95: 'INT' },
    ],
    ['https://a/01/12312312312333?99=ABC&unknown=666', { '01': '12312312312333', 99: 'ABC' }],
  ])('%s', (link, expected) => {
    expect(elements(parseDigitalLink(link, YEAR))).toEqual(expected)
  })
  it.each([
    'https://a/01/2112345678900',
    'https://a/01/12312312312333?99=ABC&999=faux',
    'hTTps://a/01/12312312312333',
    'https://a/01/12312312312333/',
    'ftp://a/01/12312312312333',
    'https://a/01/12312312312333/21/A/10/B',
  ])('%s is refused', (link) => {
    expect(parseDigitalLink(link, YEAR).kind).toBe('fault')
  })
})

describe('a scan', () => {
  it('tells product, lot, expiry, serial and count', () => {
    const scan = readScan(`]d2010952012345678817270331${'10LOT42A'}${GS}21SN0001${GS}3012`, YEAR)
    expect(scan).toMatchObject({
      kind: 'label',
      gtin: '09520123456788',
      lotNumber: 'LOT42A',
      expiry: '2027-03-31',
      expiryPrecision: 'day',
      serial: 'SN0001',
      count: 12,
    })
  })

  it('takes what is printed under the symbol, a link, and a bare GTIN', () => {
    expect(readScan('(01)09520123456788(17)270300(10)L1', YEAR)).toMatchObject({
      gtin: '09520123456788',
      expiry: '2027-03-31',
      expiryPrecision: 'month',
      lotNumber: 'L1',
    })
    expect(readScan('https://example.com/01/09520123456788?17=270331', YEAR)).toMatchObject({
      gtin: '09520123456788',
      expiry: '2027-03-31',
    })
    expect(readScan(']E09520123456788', YEAR)).toMatchObject({ gtin: '09520123456788', lotNumber: null })
  })

  it('names a wrong check digit, and does not guess', () => {
    expect(readScan('9520123456787', YEAR)).toEqual({
      kind: 'fault',
      message: 'The check digit of 9520123456787 is wrong: scan or type it again',
    })
    expect(readScan(']C10109520123456787', YEAR)).toMatchObject({
      kind: 'fault',
      message: expect.stringContaining('8 would be right'),
    })
    expect(readScan(']C110LOT', YEAR)).toMatchObject({
      kind: 'fault',
      message: expect.stringContaining('no GTIN'),
    })
  })
})
