import { gtin14, hasCheckDigit } from './check-digit.ts'
import { dateOfYymmdd } from './date.ts'
import { parseDigitalLink } from './digital-link.ts'
import { parseElementString, SEPARATOR, type Elements } from './element-string.ts'

/** What a label tells of a delivery. */
export interface Label {
  readonly kind: 'label'
  /** Fourteen digits. */
  readonly gtin: string
  readonly lotNumber: string | null
  /** Last day that counts; `expiryPrecision` is `month` where the label had no day. */
  readonly expiry: string | null
  readonly expiryPrecision: 'day' | 'month'
  readonly producedOn: string | null
  readonly serial: string | null
  readonly count: number | null
  readonly elements: Elements
}

export type Scan = Label | { readonly kind: 'fault'; readonly message: string }

/** Symbology identifiers (ISO/IEC 15424) of symbols that carry GS1 element strings. */
const GS1_SYMBOLS = [']C1', ']e0', ']d2', ']Q3', ']J1']
const PLAIN_SYMBOLS = [']E0', ']E4', ']d1', ']Q1', ']C0']

/**
 * Reads what a scanner or camera sends: a GS1 element string (GS1-128, DataMatrix, QR, with or without its symbology
 * identifier), a Digital Link, a bracketed string as printed under a symbol, or a bare GTIN.
 *
 * @param currentYear Four digits, for the century of two-digit years.
 */
export function readScan(scanned: string, currentYear: number): Scan {
  const text = scanned.trim()
  if (text === '') return { kind: 'fault', message: 'Nothing was scanned' }
  const bare = withoutSymbology(text)
  if (/^https?:/i.test(bare)) return toLabel(parseDigitalLink(bare, currentYear), currentYear)
  if (/^\d{8}$|^\d{12,14}$/.test(bare) && !startsWithFnc1(text)) return ofGtin(bare)
  if (bare.startsWith('(')) return toLabel(parseElementString(unbracket(bare), currentYear), currentYear)
  const elements = bare.startsWith(SEPARATOR) ? bare.slice(1) : bare
  return toLabel(parseElementString(elements, currentYear), currentYear)
}

function withoutSymbology(text: string): string {
  const known = [...GS1_SYMBOLS, ...PLAIN_SYMBOLS].some((symbol) => text.startsWith(symbol))
  return known ? text.slice(3) : text
}

function startsWithFnc1(text: string): boolean {
  return text.startsWith(SEPARATOR) || GS1_SYMBOLS.some((symbol) => text.startsWith(symbol))
}

/** `(01)…(10)…` as printed for people: a separator is put after each value, which is never wrong. */
function unbracket(text: string): string {
  return text.replaceAll(/\((\d{2,4})\)/g, (_, ai: string, at: number) => (at === 0 ? ai : SEPARATOR + ai))
}

function ofGtin(digits: string): Scan {
  const gtin = gtin14(digits)
  if (gtin) return { ...EMPTY, gtin, elements: new Map([['01', gtin]]) }
  const message = hasCheckDigit(digits)
    ? `${digits} has no length of a GTIN`
    : `The check digit of ${digits} is wrong: scan or type it again`
  return { kind: 'fault', message }
}

const EMPTY = {
  kind: 'label',
  lotNumber: null,
  expiry: null,
  expiryPrecision: 'day',
  producedOn: null,
  serial: null,
  count: null,
} as const

function toLabel(parsed: ReturnType<typeof parseElementString>, currentYear: number): Scan {
  if (parsed.kind === 'fault')
    return { kind: 'fault', message: `The label cannot be read: ${parsed.message}` }
  const { elements } = parsed
  const gtin = elements.get('01') ?? elements.get('02')
  if (!gtin) return { kind: 'fault', message: 'The label names no product: it has no GTIN' }
  const expiry = elements.get('17')
  const produced = elements.get('11')
  const count = elements.get('30') ?? elements.get('37')
  return {
    kind: 'label',
    gtin,
    lotNumber: elements.get('10') ?? null,
    expiry: expiry === undefined ? null : (dateOfYymmdd(expiry, currentYear) ?? null),
    expiryPrecision: expiry?.endsWith('00') ? 'month' : 'day',
    producedOn: produced === undefined ? null : (dateOfYymmdd(produced, currentYear) ?? null),
    serial: elements.get('21') ?? null,
    count: count === undefined ? null : Number(count),
    elements,
  }
}
