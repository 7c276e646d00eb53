import type { Shop } from '@clampclock/contracts'
import { writtenAt } from '../http/dates.ts'
import PDFDocument from 'pdfkit'

export const MARGIN = 50
const LABEL_WIDTH = 150

/** An A4 document in the standard fonts, written on by `write`. */
export function renderSheet(
  title: string,
  shop: Shop,
  now: Date,
  write: (sheet: Sheet) => void,
): Promise<Uint8Array> {
  const document = new PDFDocument({
    size: 'A4',
    margin: MARGIN,
    bufferPages: true,
    lang: 'en',
    displayTitle: true,
    info: { Title: title, Creator: 'Clampclock', CreationDate: now },
  })
  const chunks: Uint8Array[] = []
  const done = new Promise<Uint8Array>((resolve, reject) => {
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    document.on('end', () => resolve(Buffer.concat(chunks)))
    document.on('error', reject)
  })
  write(new Sheet(document, shop))
  document.end()
  return done
}

/** A page with headings and rows, in the shop's time and units. */
export class Sheet {
  readonly document: PDFKit.PDFDocument
  readonly #shop: Shop

  constructor(document: PDFKit.PDFDocument, shop: Shop) {
    this.document = document
    this.#shop = shop
  }

  get shopName(): string {
    return this.#shop.name
  }

  heading(text: string): void {
    const { document } = this
    if (document.y > document.page.height - 140) document.addPage()
    document.moveDown(0.8).font('Helvetica-Bold').fontSize(12).text(printable(text), MARGIN)
    document.moveDown(0.2).font('Helvetica').fontSize(9)
  }

  row(label: string, value: string): void {
    const { document } = this
    const width = document.page.width - 2 * MARGIN - LABEL_WIDTH
    const height = document.heightOfString(printable(value), { width })
    if (document.y + height > document.page.height - MARGIN - 20) document.addPage()
    const { y } = document
    document.fillColor('#555').text(printable(label), MARGIN, y, { width: LABEL_WIDTH - 10 })
    const below = document.y
    document.fillColor('#000').text(printable(value), MARGIN + LABEL_WIDTH, y, { width })
    document.y = Math.max(below, document.y) + 2
  }

  line(text: string): void {
    this.document.text(printable(text), MARGIN, undefined, { width: this.document.page.width - 2 * MARGIN })
    this.document.moveDown(0.2)
  }

  instant(at: Date): string {
    return writtenAt(at, this.#shop.timeZone)
  }

  temperature(c: number): string {
    return this.#shop.temperatureUnit === 'F' ? `${(c * 1.8 + 32).toFixed(1)} °F` : `${c.toFixed(1)} °C`
  }

  accuracy(c: number): string {
    return this.#shop.temperatureUnit === 'F' ? `± ${(c * 1.8).toFixed(1)} °F` : `± ${c.toFixed(1)} °C`
  }
}

/** The standard fonts hold Western European letters only; anything else is shown as a question mark, not as rubbish. */
export function printable(text: string): string {
  return text.replaceAll(/[^\u0020-\u007e\u00a0-\u00ff–—‘’“”•…\n]/g, '?')
}
