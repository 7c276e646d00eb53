import { fitName } from '@clampclock/stock'
import { say, type Reader } from '@clampclock/messages'
import { printable } from '../../foundation/documents/pdf-sheet.ts'
import type { CartridgeLabel } from './cartridge-label.ts'

/** Lengths in points, from the top left of the page. */
export interface TextSpace {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

interface Line {
  readonly font: string
  readonly size: number
  readonly text: string
}

const BOLD = 'Helvetica-Bold'
const PLAIN = 'Helvetica'
/** Of the type size: an accent on a capital letter above the baseline, and a whole line with its descender. */
const ABOVE = 0.95
const LINE = 1.18
/** The code is what somebody types whose camera reads nothing: the largest. The rest is for the eye. */
const CODE = 1.15
const REST = 0.85
/** Lines at most: code, name on two, lot, expiry. What they need together, of the type size. */
const NEEDED = LINE * (CODE + 4 * REST)
const LARGEST = 14
/**
 * The fonts are named, not carried along: a viewer without Helvetica takes another face, up to a quarter wider (the
 * digits of DejaVu Sans Bold are 0.696 em, those of Helvetica Bold 0.556): that much is kept free.
 */
const WIDER = 1.25
const SMALLER = 0.94

/**
 * Writes code, product, lot and expiry one below the other into `space`, in the middle of its height. Code, lot and expiry
 * are never cut, since one that is cut short is another one: they shrink instead.
 */
export function writeText(
  document: PDFKit.PDFDocument,
  label: CartridgeLabel,
  space: TextSpace,
  names: readonly string[],
  reader: Reader,
): void {
  const { x, y, height } = space
  const width = space.width / WIDER
  const size = Math.min(LARGEST, height / NEEDED)
  const lines = [
    whole(document, BOLD, size * CODE, label.code, width),
    ...named(document, size * REST, label.productName, names, width),
    whole(document, PLAIN, size * REST, say(reader, 'cartridge.labelLot', { lot: label.lotNumber }), width),
    whole(document, BOLD, size * REST, say(reader, 'cartridge.labelExpiry', { expiry: label.expiry }), width),
  ]
  const used = lines.reduce((sum, line) => sum + line.size * LINE, 0)
  let top = y + (height - used) / 2
  for (const line of lines) {
    document.font(line.font).fontSize(line.size)
    // Each at a height of its own: without line breaking the document's own position goes to the right, not down.
    document.text(line.text, x, top + line.size * ABOVE, { lineBreak: false, baseline: 'alphabetic' })
    top += line.size * LINE
  }
}

function whole(
  document: PDFKit.PDFDocument,
  font: string,
  largest: number,
  said: string,
  width: number,
): Line {
  const text = printable(said)
  let size = largest
  while (document.font(font).fontSize(size).widthOfString(text) > width) size *= SMALLER
  return { font, size, text }
}

function named(
  document: PDFKit.PDFDocument,
  largest: number,
  name: string,
  names: readonly string[],
  width: number,
): Line[] {
  const sizes = [1, 0.88, 0.76].map((part) => largest * part)
  const measure = (text: string, size: number) => document.font(PLAIN).fontSize(size).widthOfString(text)
  const fitted = fitName(printable(name), names.map(printable), { width, sizes, maxLines: 2 }, measure)
  return fitted.lines.map((text) => ({ font: PLAIN, size: fitted.size, text }))
}
