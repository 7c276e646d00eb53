import bwipjs from 'bwip-js/node'
import PDFDocument from 'pdfkit'
import { labelPlace, type LabelSheet } from '@clampclock/stock'
import { say, type Reader } from '@clampclock/messages'
import { NOBODY } from '../../foundation/words/reader.ts'
import type { CartridgeLabel } from './cartridge-label.ts'
import { writeText } from './write-text.ts'

const POINTS_PER_MM = 72 / 25.4
const PADDING_MM = 2
/** Modules of white that a reader needs on each side of a QR code (ISO/IEC 18004). */
const QUIET_MODULES = 4

/** Draws labels onto sheets of which the first is used up before place `start`. Lengths hold when printed at 100 %. */
export function drawLabels(
  labels: readonly CartridgeLabel[],
  sheet: LabelSheet,
  start: number,
  options: { compress?: boolean; names?: readonly string[]; reader?: Reader } = {},
): Promise<Uint8Array> {
  const document = new PDFDocument({
    size: [sheet.widthMm * POINTS_PER_MM, sheet.heightMm * POINTS_PER_MM],
    margin: 0,
    autoFirstPage: false,
    compress: options.compress ?? true,
    info: { Title: say(options.reader ?? NOBODY, 'cartridge.labels') },
  })
  const chunks: Buffer[] = []
  const done = new Promise<Uint8Array>((resolve, reject) => {
    document.on('data', (chunk: Buffer) => chunks.push(chunk))
    document.on('end', () => resolve(Buffer.concat(chunks)))
    document.on('error', reject)
  })
  let page = -1
  for (const [i, label] of labels.entries()) {
    const place = labelPlace(sheet, i, start)
    while (page < place.page) {
      document.addPage()
      page += 1
    }
    drawLabel(document, label, sheet, place, options.names ?? [], options.reader ?? NOBODY)
  }
  document.end()
  return done
}

function drawLabel(
  document: PDFKit.PDFDocument,
  label: CartridgeLabel,
  sheet: LabelSheet,
  { xMm, yMm }: { xMm: number; yMm: number },
  names: readonly string[],
  reader: Reader,
): void {
  const points = (mm: number) => mm * POINTS_PER_MM
  const insideMm = sheet.labelHeightMm - 2 * PADDING_MM
  const codeMm = Math.min(insideMm, sheet.labelWidthMm * 0.45)
  drawCode(
    document,
    label.text,
    points(xMm + PADDING_MM),
    points(yMm + (sheet.labelHeightMm - codeMm) / 2),
    points(codeMm),
  )

  writeText(
    document,
    label,
    {
      x: points(xMm + PADDING_MM + codeMm + 1),
      y: points(yMm + PADDING_MM),
      width: points(sheet.labelWidthMm - codeMm - 2 * PADDING_MM - 1),
      height: points(insideMm),
    },
    names,
    reader,
  )
}

/** As rectangles, one for each run of dark modules: sharp on any printer. */
function drawCode(document: PDFKit.PDFDocument, text: string, x: number, y: number, size: number): void {
  const { dark, modules } = qrModules(text)
  const module = size / (modules + 2 * QUIET_MODULES)
  for (let row = 0; row < modules; row += 1) {
    let run = 0
    for (let column = 0; column <= modules; column += 1) {
      if (column < modules && dark[row * modules + column] === 1) {
        run += 1
        continue
      }
      if (run > 0) {
        const at = QUIET_MODULES + column - run
        document.rect(x + at * module, y + (QUIET_MODULES + row) * module, run * module, module)
      }
      run = 0
    }
  }
  document.fill('#000')
}

/** A QR code as rows of modules, 1 where it is dark. */
function qrModules(text: string): { dark: readonly number[]; modules: number } {
  // Level M: a label that has lost 15 % to a glove's smear still reads.
  const options = { bcid: 'qrcode', text, eclevel: 'M' }
  const [symbol] = bwipjs.raw(options) as unknown as [{ pixs: number[]; pixx: number; pixy: number }]
  return { dark: symbol.pixs, modules: symbol.pixx }
}
