import { describe, expect, it } from 'vitest'
import { applicationIdentifier, leadingIdentifier } from './application-identifiers.ts'
import { checkDigit } from './check-digit.ts'
import { parseElementString, SEPARATOR } from './element-string.ts'
import { valueFault } from './value-fault.ts'

const YEAR = 2026
const checked = (body: string) => `${body}${checkDigit(body)}`
const gln = checked('950600013436')
const gtin = checked('0950600013435')
const sscc = checked('09506000134352001')
const gsrn = checked('09506000134352003')

/**
 * An identifier of each format, a value that it takes and one that it does not, by GS1 General Specifications 24, section
 * 3.2, and gs1-syntax-dictionary: what is 'too long' has one character more than there is room for.
 */
const FORMATS = [
  ['00', sscc, `${sscc.slice(0, -1)}${(Number(sscc.at(-1)) + 1) % 10}`],
  ['8018', gsrn, gsrn.slice(1)],
  ['01', gtin, gtin.slice(1)],
  ['03', gtin, `${gtin}0`],
  ['10', 'A'.repeat(20), 'A'.repeat(21)],
  ['8012', 'V1.0', 'V 1'],
  ['13', '310200', '311300'],
  ['16', '310228', '310230'],
  ['20', '01', '1'],
  ['7241', '12', '1A'],
  ['235', 'a'.repeat(28), 'a'.repeat(29)],
  ['400', 'P'.repeat(30), 'P'.repeat(31)],
  ['90', 'P'.repeat(30), 'P'.repeat(31)],
  ['242', '123456', '1234567'],
  ['253', `${gln}ABC`, `${gln}${'A'.repeat(18)}`],
  ['255', `${gln}123`, `${gln}A`],
  ['30', '12345678', '123456789'],
  ['3103', '000750', '00075'],
  ['8005', '001250', '1250'],
  ['3902', '1'.repeat(15), '1'.repeat(16)],
  ['3925', '1', 'A'],
  ['3912', '9781250', '97'],
  ['3935', `978${'1'.repeat(15)}`, `978${'1'.repeat(16)}`],
  ['3943', '0125', '012'],
  ['8111', '0010', '00100'],
  ['402', checked('9506000134352001'), '95060001343520010'.replace(/.$/, 'A')],
  ['414', gln, gln.slice(1)],
  ['417', gln, `${gln}0`],
  ['421', '276ABC123', '276ABC1234567'],
  ['422', '276', '27'],
  ['426', '040', '0400'],
  ['423', '276040756528528', '2760407565285281'],
  ['425', '276', '27'],
  ['427', 'BY1', 'BYBY'],
  ['7008', 'COD', 'CODX'],
  ['4300', 'C'.repeat(35), 'C'.repeat(36)],
  ['4320', 'S'.repeat(35), 'S'.repeat(36)],
  ['4302', 'A'.repeat(70), 'A'.repeat(71)],
  ['4306', 'A', ''],
  ['8110', 'A'.repeat(70), 'A'.repeat(71)],
  ['8200', 'http://a', 'http://a#'],
  ['4307', 'DE', 'D'],
  ['4317', 'US', 'USA'],
  ['4309', '01234567890123456789', '012345678901234567890'],
  ['4321', '1', '10'],
  ['7252', '2', ''],
  ['4324', '3102001530', '310200153'],
  ['4326', '310228', '310200'],
  ['7006', '310228', '310230'],
  ['4330', '000250-', '000250--'],
  ['4333', '000250', '00025'],
  ['7001', '1234567890123', '123456789012'],
  ['7003', '3102281530', '3102001530'],
  ['7004', '1234', '12345'],
  ['7005', 'A'.repeat(12), 'A'.repeat(13)],
  ['7007', '310228310301', '3102283103'],
  ['7007', '310228', '310200'],
  ['7009', 'A'.repeat(10), 'A'.repeat(11)],
  ['7255', 'Jr.', 'A'.repeat(11)],
  ['7010', '01', '012'],
  ['7011', '3102281530', '310228153'],
  ['7011', '310228', '310200'],
  ['7030', `276${'A'.repeat(27)}`, `276${'A'.repeat(28)}`],
  ['7039', '276A', '27'],
  ['7040', '1ABC', 'AABC'],
  ['7041', 'PALL', 'PALLE'],
  ['7230', `EM${'A'.repeat(28)}`, `EM${'A'.repeat(29)}`],
  ['7239', 'EMX', 'E'],
  ['7242', 'A'.repeat(25), 'A'.repeat(26)],
  ['8020', 'A'.repeat(25), 'A'.repeat(26)],
  ['7250', '20310228', '2031022'],
  ['7251', '203102281530', '20310228153'],
  ['7253', 'A'.repeat(40), 'A'.repeat(41)],
  ['7256', 'A'.repeat(90), 'A'.repeat(91)],
  ['91', 'A'.repeat(90), 'A'.repeat(91)],
  ['99', 'A', ''],
  ['7258', '1/1', '1/10'],
  ['8001', '12345678901211', '1234567890121'],
  ['8003', `0${gln}ABC`, `0${gln}${'A'.repeat(17)}`],
  ['8006', `${gtin}0102`, `${gtin}010`],
  ['8026', `${gtin}0102`, `${gtin}01022`],
  ['8007', 'A'.repeat(34), 'A'.repeat(35)],
  ['8008', '310228153045', '3102281530457'],
  ['8008', '31022815', '310228'],
  ['8009', 'A'.repeat(50), 'A'.repeat(51)],
  ['8010', '9506000134/A-1', 'abc'],
  ['8010', 'A'.repeat(30), 'A'.repeat(31)],
  ['8011', '123456789012', '1234567890123'],
  ['8019', '1234567890', '12345678901'],
  ['8030', 'aZ09_-==', 'aZ09+'],
  ['8030', 'A'.repeat(90), 'A'.repeat(91)],
  ['8040', '1'.repeat(15), '1'.repeat(14)],
  ['8042', '1'.repeat(32), '1'.repeat(31)],
  ['8043', `${'1'.repeat(18)}12`, `${'1'.repeat(18)}123`],
  ['8043', '1'.repeat(18), '1'.repeat(17)],
] as const

describe('an application identifier', () => {
  it.each(FORMATS)('(%s) takes %s and not %j', (ai, good, bad) => {
    const identifier = applicationIdentifier(ai)!
    expect(identifier.ai).toBe(ai)
    expect(valueFault(identifier, good, YEAR)).toBeUndefined()
    expect(valueFault(identifier, bad, YEAR)).toMatch(new RegExp(`^\\(${ai}\\) `))
  })

  // From the first to the last of each range, and not the ones on either side.
  it.each([
    ['11', '13', '14'],
    ['15', '17', '18'],
    ['3100', '3105', '3106'],
    ['3690', '3695', '3696'],
    ['3900', '3909', '389'],
    ['410', '417', '418'],
    ['710', '717', '718'],
    ['7020', '7022', '7024'],
    ['4330', '4333', '4334'],
    ['91', '99', '9'],
  ])('is there from (%s) to (%s), and (%s) is none', (first, last, none) => {
    expect(applicationIdentifier(first)).toBeDefined()
    expect(applicationIdentifier(last)).toBeDefined()
    expect(applicationIdentifier(none)).toBeUndefined()
  })

  it('says in words what is wrong with a value', () => {
    const fault = (ai: string, value: string) => valueFault(applicationIdentifier(ai)!, value, YEAR)
    expect(fault('10', '')).toBe('(10) has no value')
    expect(fault('20', '1')).toBe("(20) '1' is too short: 2 characters are needed")
    expect(fault('20', '123')).toBe("(20) is too long: '3' is left over")
    expect(fault('10', 'A B')).toBe("(10) 'A B' has a character that is not allowed there")
    expect(fault('17', '311300')).toBe("(17) '311300' is no date YYMMDD")
    expect(fault('01', '09506000134353')).toBe(
      "(01) '09506000134353' has check digit 3, but 2 would be right: scan or type it again",
    )
  })
})

describe('after a value', () => {
  // GS1 General Specifications: element strings with predefined length.
  const PREDEFINED = [
    ['00', sscc],
    ['01', gtin],
    ['02', gtin],
    ['03', gtin],
    ['11', '310228'],
    ['12', '310228'],
    ['13', '310228'],
    ['15', '310228'],
    ['16', '310228'],
    ['17', '310228'],
    ['20', '01'],
    ['3103', '000750'],
    ['3203', '000750'],
    ['3303', '000750'],
    ['3403', '000750'],
    ['3503', '000750'],
    ['3603', '000750'],
    ['410', gln],
  ] as const

  it.each(PREDEFINED)('of (%s) nothing must stand, since its length is known', (ai, value) => {
    for (const between of ['', SEPARATOR])
      expect(parseElementString(`${ai}${value}${between}10LOT`, YEAR)).toEqual({
        kind: 'elements',
        elements: new Map([
          [ai, value],
          ['10', 'LOT'],
        ]),
      })
  })

  it.each([
    ['422', '276'],
    ['8005', '001250'],
    ['7003', '3102281530'],
    ['30', '5'],
  ])('of (%s) a separator must stand, though its length may be known', (ai, value) => {
    expect(parseElementString(`${ai}${value}${SEPARATOR}10LOT`, YEAR).kind).toBe('elements')
    expect(parseElementString(`${ai}${value}10LOT`, YEAR).kind).toBe('fault')
  })

  it('that is there twice the same is one, and twice otherwise a fault', () => {
    expect(parseElementString(`10A${SEPARATOR}10A`, YEAR)).toEqual({
      kind: 'elements',
      elements: new Map([['10', 'A']]),
    })
    expect(parseElementString(`10A${SEPARATOR}10B`, YEAR)).toEqual({
      kind: 'fault',
      message: '(10) stands on the label twice, with different values',
    })
  })

  it('of nothing there is nothing, and what begins with no identifier is named by its first four characters', () => {
    expect(parseElementString('', YEAR)).toEqual({ kind: 'fault', message: 'the label is empty' })
    expect(parseElementString(`8${SEPARATOR}9ABCD`, YEAR)).toEqual({
      kind: 'fault',
      message: "'8␝9A' begins with no GS1 application identifier",
    })
  })
})

describe('the identifier that a text begins with', () => {
  it.each([
    ['01095', '01'],
    ['414950', '414'],
    ['3103000', '3103'],
    ['8005', '8005'],
  ])('of %s is %s', (text, ai) => {
    expect(leadingIdentifier(text)?.ai).toBe(ai)
  })
  it.each(['', '4', '41', '310', '89'])('of %j is none', (text) => {
    expect(leadingIdentifier(text)).toBeUndefined()
  })
})
