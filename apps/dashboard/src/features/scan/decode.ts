import type { ReadInputBarcodeFormat } from 'zxing-wasm/reader'

/** What stands on cartridges, cartons and our own labels. */
const FORMATS = ['data_matrix', 'qr_code', 'code_128', 'ean_13', 'ean_8', 'upc_a', 'itf'] as const
const ZXING_FORMATS: ReadInputBarcodeFormat[] = [
  'DataMatrix',
  'QRCode',
  'Code128',
  'EAN13',
  'EAN8',
  'UPCA',
  'ITF',
  'DataBar',
  'DataBarExpanded',
]

interface Detector {
  readonly detect: (source: ImageBitmapSource) => Promise<readonly { readonly rawValue: string }[]>
}

interface DetectorClass {
  new (options: { formats: readonly string[] }): Detector
  readonly getSupportedFormats: () => Promise<readonly string[]>
}

type Decode = (picture: ImageData) => Promise<string | undefined>

let decode: Promise<Decode> | undefined

/** The first barcode in a picture. Loads what it needs once: the browser's own reader, or else one from our own address. */
export async function firstBarcode(picture: ImageData): Promise<string | undefined> {
  decode ??= browserReader().then((reader) => reader ?? wasmReader())
  return (await decode)(picture)
}

/** Undefined where the browser has none, or one that reads no DataMatrix: most cartridges carry that. */
async function browserReader(): Promise<Decode | undefined> {
  const { BarcodeDetector } = globalThis as { BarcodeDetector?: DetectorClass }
  if (BarcodeDetector === undefined) return undefined
  const supported = await BarcodeDetector.getSupportedFormats().catch((): readonly string[] => [])
  if (!supported.includes('data_matrix') || !supported.includes('qr_code')) return undefined
  const detector = new BarcodeDetector({ formats: FORMATS.filter((format) => supported.includes(format)) })
  return async (picture) => (await detector.detect(picture))[0]?.rawValue
}

async function wasmReader(): Promise<Decode> {
  const [{ prepareZXingModule, readBarcodes }, { default: wasmUrl }] = await Promise.all([
    import('zxing-wasm/reader'),
    import('zxing-wasm/reader/zxing_reader.wasm?url'),
  ])
  prepareZXingModule({ overrides: { locateFile: () => wasmUrl } })
  return async (picture) => {
    const [symbol] = await readBarcodes(picture, {
      formats: ZXING_FORMATS,
      textMode: 'Plain',
      maxNumberOfSymbols: 1,
      tryHarder: true,
    })
    // With its identifier, so that a GS1 symbol is told from a plain one that holds the same digits.
    return symbol === undefined ? undefined : `${symbol.symbologyIdentifier}${symbol.text}`
  }
}

/** A picture from a file, no larger than the decoder needs. @throws when it is no picture. */
export async function pictureOf(file: Blob): Promise<ImageData> {
  const bitmap = await createImageBitmap(file)
  const scale = Math.min(1, 1600 / Math.max(bitmap.width, bitmap.height))
  return draw(bitmap, Math.round(bitmap.width * scale), Math.round(bitmap.height * scale))
}

export function draw(source: CanvasImageSource, width: number, height: number): ImageData {
  const canvas = document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (context === null) throw new Error('This browser draws no pictures')
  context.drawImage(source, 0, 0, width, height)
  return context.getImageData(0, 0, width, height)
}
