import { crc32 } from 'node:zlib'
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
 * @returns null for what is no whole PNG, each chunk as its checksum says.
 */
export function barePng(bytes: Uint8Array): Bare | null {
  if (!SIGNATURE.every((byte, i) => bytes[i] === byte)) return null
  const view = viewOf(bytes)
  const parts: Uint8Array[] = [bytes.subarray(0, SIGNATURE.length)]
  let size: { width: number; height: number } | undefined
  let hasData = false
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
      size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) }
    }
    if (type === 'IDAT') hasData = true
    if (KEPT.has(type)) parts.push(bytes.subarray(at, end))
    if (type === 'IEND')
      return size && hasData && size.width > 0 && size.height > 0 ? { bytes: joined(parts), ...size } : null
    at = end
  }
  return null
}
