import type { Shop } from '@clampclock/contracts'
import { paramText, say, together, type Param, type Reader, type Told } from '@clampclock/messages'
import PDFDocument from 'pdfkit'

export const MARGIN = 50
const LABEL_WIDTH = 150

/** A document, A4 or US Letter as its reader measures, in the standard fonts, in the reader's words and on the shop's clock, written on by `write`. */
export function renderSheet(
  title: Told,
  shop: Shop,
  asking: Reader,
  now: Date,
  write: (sheet: Sheet) => void,
): Promise<Uint8Array> {
  const reader = inShop(asking, shop)
  const document = new PDFDocument({
    // Where people measure in inches, their paper is cut so.
    size: reader.length === 'in' ? 'LETTER' : 'A4',
    margin: MARGIN,
    bufferPages: true,
    lang: reader.language,
    displayTitle: true,
    info: {
      Title: typeof title === 'string' ? title : say(reader, title),
      Creator: 'Clampclock',
      CreationDate: now,
    },
  })
  const chunks: Uint8Array[] = []
  const done = new Promise<Uint8Array>((resolve, reject) => {
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    document.on('end', () => resolve(Buffer.concat(chunks)))
    document.on('error', reject)
  })
  write(new Sheet(document, shop, reader))
  document.end()
  return done
}

/** On the shop's clock, and in its unit for whoever has chosen none. */
function inShop(reader: Reader, { timeZone, temperatureUnit }: Shop): Reader {
  const temperature = reader.unitOfShop ? temperatureUnit : reader.temperature
  return { ...reader, temperature, zone: timeZone }
}

/** A page with headings and rows, in the shop's time and the reader's words and units. */
export class Sheet {
  readonly document: PDFKit.PDFDocument
  readonly #shop: Shop
  readonly #reader: Reader

  constructor(document: PDFKit.PDFDocument, shop: Shop, reader: Reader) {
    this.document = document
    this.#shop = shop
    this.#reader = reader
  }

  get shopName(): string {
    return this.#shop.name
  }

  get zone(): string {
    return this.#shop.timeZone
  }

  say(text: Told): string {
    return typeof text === 'string' ? text : together(say(this.#reader, text))
  }

  heading(text: Told): void {
    const { document } = this
    if (document.y > document.page.height - 140) document.addPage()
    document
      .moveDown(0.8)
      .font('Helvetica-Bold')
      .fontSize(12)
      .text(printable(this.say(text)), MARGIN)
    document.moveDown(0.2).font('Helvetica').fontSize(9)
  }

  row(label: Told, told: Told): void {
    const { document } = this
    const value = this.say(told)
    const width = document.page.width - 2 * MARGIN - LABEL_WIDTH
    const height = document.heightOfString(printable(value), { width })
    if (document.y + height > document.page.height - MARGIN - 20) document.addPage()
    const { y } = document
    document.fillColor('#555').text(printable(this.say(label)), MARGIN, y, { width: LABEL_WIDTH - 10 })
    const below = document.y
    document.fillColor('#000').text(printable(value), MARGIN + LABEL_WIDTH, y, { width })
    document.y = Math.max(below, document.y) + 2
  }

  /**
   * A picture beside its label, with a caption above it; `instead` stands where there is none that can be drawn (a WebP).
   *
   * @param fit Its most width and height, points.
   */
  picture(
    label: Told,
    caption: Told,
    bytes: Uint8Array | undefined,
    instead: Told,
    fit: readonly [width: number, height: number],
  ): void {
    const { document } = this
    if (document.y + fit[1] + 30 > document.page.height - MARGIN - 20) document.addPage()
    this.row(label, caption)
    const { y } = document
    try {
      if (bytes === undefined) return this.row('', instead)
      document.image(Buffer.from(bytes), MARGIN + LABEL_WIDTH, y, { fit: [...fit] })
      document.y = y + fit[1] + 6
    } catch {
      // It draws JPEG and PNG alone, and not every one of those.
      this.row('', instead)
    }
  }

  line(text: Told): void {
    this.document.text(printable(this.say(text)), MARGIN, undefined, {
      width: this.document.page.width - 2 * MARGIN,
    })
    this.document.moveDown(0.2)
  }

  /** An instant as a parameter: its date and the time on the shop's clock. */
  at(at: Date): Param {
    return { instant: at.toISOString(), style: 'full' }
  }

  text(param: Param): string {
    return paramText(this.#reader, param)
  }
}

/** The standard fonts hold Western European letters only; anything else is shown as a question mark, not as rubbish. */
export function printable(text: string): string {
  return text.replaceAll(/[^\u0020-\u007e\u00a0-\u00ff–—‘’“”•…\n]/g, '?')
}
