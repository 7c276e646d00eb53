import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import bwipjs from 'bwip-js/node'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { beforeAll, describe, expect, it } from 'vitest'
import { LABEL_SHEETS, ownLabelText, readOwnLabel, readScan } from '../../packages/stock/src/index.ts'
import { drawLabels } from '../../apps/api/src/supply/labels/draw.ts'

/** Printed symbols, read back by a decoder that is not ours and not the printer's: zxing-cpp. */
const YEAR = 2031
const DPI = 300

beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const bytes = await readFile(wasm)
  prepareZXingModule({
    overrides: { wasmBinary: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) },
  })
})

interface Rect {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** What a browser calls ImageData. */
interface Picture {
  readonly data: Uint8ClampedArray
  readonly width: number
  readonly height: number
  readonly colorSpace: 'srgb'
}

/** The rectangles of each page of an uncompressed PDF, in points from the top left. */
function pagesOf(pdf: Uint8Array): Rect[][] {
  const text = Buffer.from(pdf).toString('latin1')
  return [...text.matchAll(/stream\n([\s\S]*?)\nendstream/g)]
    .map(([, stream = '']) => stream)
    .filter((stream) => / re\b/.test(stream))
    .map((stream) =>
      [...stream.matchAll(/(-?[\d.]+) (-?[\d.]+) ([\d.]+) ([\d.]+) re\b/g)].map((found) => {
        const [x, y, width, height] = found.slice(1).map(Number) as [number, number, number, number]
        return { x, y, width, height }
      }),
    )
}

/** As a laser printer of 300 dpi would put it on paper: what is more than half covered is black. */
function printed(rects: readonly Rect[], widthMm: number, heightMm: number): Picture {
  const width = Math.round((widthMm / 25.4) * DPI)
  const height = Math.round((heightMm / 25.4) * DPI)
  const data = new Uint8ClampedArray(width * height * 4).fill(255)
  const dot = (points: number) => Math.round((points / 72) * DPI)
  for (const rect of rects) {
    for (let y = dot(rect.y); y < dot(rect.y + rect.height); y += 1) {
      data.fill(0, (y * width + dot(rect.x)) * 4, (y * width + dot(rect.x + rect.width)) * 4)
    }
  }
  for (let i = 3; i < data.length; i += 4) data[i] = 255
  return { data, width, height, colorSpace: 'srgb' }
}

const labels = Array.from({ length: 5 }, (_, i) => {
  const code = `4F7K-92Q${i}`
  return {
    text: ownLabelText(code, 'https://stock.bramblewick.example'),
    code,
    productName: 'Snark Panel 90',
    lotNumber: 'A12345',
    expiry: '31 May 2031',
  }
})

describe.each(LABEL_SHEETS.map((sheet) => [sheet.id, sheet] as const))('labels on sheet %s', (_id, sheet) => {
  it('read back from the printed page, each with its own code', async () => {
    const pages = pagesOf(await drawLabels(labels, sheet, 1, { compress: false }))
    const read: (string | undefined)[] = []
    for (const rects of pages) {
      const found = await readBarcodes(printed(rects, sheet.widthMm, sheet.heightMm), {
        formats: ['QRCode'],
        textMode: 'Plain',
        maxNumberOfSymbols: 50,
      })
      read.push(...found.map(({ text }) => readOwnLabel(text)))
    }
    expect(read.toSorted((a = '', b = '') => a.localeCompare(b))).toEqual(labels.map(({ code }) => code))
  })
})

/** The words of a PDF that is not compressed: shown as hexadecimal in arrays with kerning between. */
function wordsOf(pdf: Uint8Array): string {
  const shown = Buffer.from(pdf)
    .toString('latin1')
    .matchAll(/\[([^\]]*)\] TJ/g)
  return [...shown]
    .map(([, array = '']) =>
      [...array.matchAll(/<([0-9a-f]+)>/g)]
        .map(([, hex = '']) => Buffer.from(hex, 'hex').toString('latin1'))
        .join(''),
    )
    .join('\n')
}

it.each(LABEL_SHEETS)(
  'tells two products of one family apart on $id, and cuts no lot short',
  async (sheet) => {
    const family = ['Snark Structural Panel Adhesive Slow 90', 'Snark Structural Panel Adhesive Slow 60']
    for (const productName of family) {
      const label = { ...labels[0]!, productName, lotNumber: 'W'.repeat(20) }
      const words = wordsOf(await drawLabels([label], sheet, 1, { compress: false, names: family }))
      expect(words).toContain(productName.slice(-2))
      expect(words).toContain('W'.repeat(20))
      expect(words).toContain('31 May 2031')
    }
  },
)

it('begins at the place that is free, and goes on with the next sheet', async () => {
  const sheet = LABEL_SHEETS[0]!
  const pages = pagesOf(await drawLabels(labels, sheet, 23, { compress: false }))
  expect(pages).toHaveLength(2)
  const found = await readBarcodes(printed(pages[0]!, sheet.widthMm, sheet.heightMm), { formats: ['QRCode'] })
  expect(found).toHaveLength(2)
})

describe("suppliers' symbols, drawn by bwip-js, read by zxing, understood by us", () => {
  const gs1 = '(01)09520123456788(17)310500(10)A12345'
  it.each([
    ['GS1 DataMatrix', 'gs1datamatrix', gs1],
    ['GS1-128', 'gs1-128', gs1],
    ['GS1 QR code', 'gs1qrcode', gs1],
    ['Digital Link in a QR code', 'gs1dlqrcode', 'https://id.example/01/09520123456788/10/A12345?17=310500'],
    ['DataBar Expanded', 'databarexpanded', gs1],
  ])('%s', async (_name, bcid, text) => {
    const png = await bwipjs.toBuffer({ bcid, text, scale: 3, padding: 10, backgroundcolor: 'FFFFFF' })
    const [symbol] = await readBarcodes(new Uint8Array(png), { textMode: 'Plain' })
    expect(readScan(`${symbol!.symbologyIdentifier}${symbol!.text}`, YEAR)).toMatchObject({
      kind: 'label',
      gtin: '09520123456788',
      lotNumber: 'A12345',
      expiry: '2031-05-31',
      expiryPrecision: 'month',
    })
  })

  it('EAN-13: the GTIN alone', async () => {
    const png = await bwipjs.toBuffer({
      bcid: 'ean13',
      text: '9520123456788',
      scale: 3,
      padding: 10,
      backgroundcolor: 'FFFFFF',
    })
    const [symbol] = await readBarcodes(new Uint8Array(png), { textMode: 'Plain' })
    expect(readScan(`${symbol!.symbologyIdentifier}${symbol!.text}`, YEAR)).toMatchObject({
      gtin: '09520123456788',
      lotNumber: null,
      expiry: null,
    })
  })
})
