import { crc32, inflateSync } from 'node:zlib'
import { joined, textAt, viewOf, type Bare } from './bare.ts'

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
/** The picture and how its colours are meant; no text, time, EXIF, and no frames of an animation. */
const KEPT: ReadonlySet<string> = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'iCCP',
  'sBIT',
  'pHYs',
])

/**
 * A PNG (W3C, third edition, section 5) without texts, times and EXIF, nor whatever follows its end.
 *
 * @returns null for what is no whole PNG: each chunk as its checksum says, and as many pixels as the header.
 */
export function barePng(bytes: Uint8Array): Bare | null {
  if (!SIGNATURE.every((byte, i) => bytes[i] === byte)) return null
  const view = viewOf(bytes)
  const parts: Uint8Array[] = [bytes.subarray(0, SIGNATURE.length)]
  let size: { width: number; height: number } | undefined
  let header: Uint8Array | undefined
  const data: Uint8Array[] = []
  for (let at = SIGNATURE.length; at + 12 <= bytes.length;) {
    const length = view.getUint32(at)
    const end = at + 12 + length
    if (end > bytes.length) return null
    const type = textAt(bytes, at + 4, 4)
    if (crc32(bytes.subarray(at + 4, end - 4)) !== view.getUint32(end - 4)) return null
    // The header comes first, once.
    if ((type === 'IHDR') !== (size === undefined)) return null
    if (type === 'IHDR') {
      if (length !== 13) return null
      header = bytes.subarray(at + 8, at + 8 + length)
      size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) }
    }
    if (type === 'IDAT') data.push(bytes.subarray(at + 8, end - 4))
    if (KEPT.has(type)) parts.push(bytes.subarray(at, end))
    if (type === 'IEND')
      return header && size && isFull(header, size, joined(data)) ? { bytes: joined(parts), ...size } : null
    at = end
  }
  return null
}

interface Size {
  readonly width: number
  readonly height: number
}

/** Samples of a pixel by colour type, and the bits that one may have (table 9). */
const SAMPLES: Readonly<Record<number, { readonly samples: number; readonly bits: readonly number[] }>> = {
  0: { samples: 1, bits: [1, 2, 4, 8, 16] },
  2: { samples: 3, bits: [8, 16] },
  3: { samples: 1, bits: [1, 2, 4, 8] },
  4: { samples: 2, bits: [8, 16] },
  6: { samples: 4, bits: [8, 16] },
}
/** First column and row, and steps, of the passes of an interlaced picture (section 8.2). */
const PASSES = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const

/** Unpacked. A photo of the few hundred kB that are taken here has some 20 MB; more is a file that was made to fill memory. */
const MOST_BYTES = 64 * 2 ** 20

/** Whether its data unpack to every line of its pixels: else no program shows a picture, and it proves nothing. */
function isFull(header: Uint8Array, { width, height }: Size, data: Uint8Array): boolean {
  const [bits, colour, compression, filter, interlace] = header.subarray(8) as unknown as number[]
  const kind = SAMPLES[colour!]
  if (!kind?.bits.includes(bits!) || compression !== 0 || filter !== 0 || interlace! > 1) return false
  if (width === 0 || height === 0) return false
  const linesOf = (columns: number, rows: number) =>
    columns === 0 ? 0 : rows * (1 + Math.ceil((columns * kind.samples * bits!) / 8))
  const wanted =
    interlace === 0
      ? linesOf(width, height)
      : PASSES.reduce((sum, [column, row, across, down]) => {
          return sum + linesOf(Math.ceil((width - column) / across), Math.ceil((height - row) / down))
        }, 0)
  if (wanted > MOST_BYTES) return false
  try {
    return inflateSync(data, { maxOutputLength: wanted + 1 }).length === wanted
  } catch {
    return false
  }
}
