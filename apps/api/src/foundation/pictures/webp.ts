import { joined, textAt, viewOf, type Bare } from './bare.ts'

/** Flags of the extended header that say of what is taken out that it is there: EXIF, XMP. */
const METADATA = 0x08 | 0x04
const ANIMATION = 0x02
const KEPT: ReadonlySet<string> = new Set(['VP8X', 'ICCP', 'ALPH', 'VP8 ', 'VP8L'])

type Size = Pick<Bare, 'width' | 'height'>

/**
 * A still WebP (RFC 9649, section 2) without EXIF and XMP, nor whatever follows its end.
 *
 * @returns null for what is no whole WebP, or moves.
 */
export function bareWebp(bytes: Uint8Array): Bare | null {
  if (bytes.length < 20 || textAt(bytes, 0, 4) !== 'RIFF' || textAt(bytes, 8, 4) !== 'WEBP') return null
  const view = viewOf(bytes)
  const until = 8 + view.getUint32(4, true)
  if (until > bytes.length) return null
  const parts: Uint8Array[] = []
  let canvas: Size | null = null
  let picture: Size | null = null
  for (let at = 12; at + 8 <= until;) {
    const type = textAt(bytes, at, 4)
    const length = view.getUint32(at + 4, true)
    // Of an odd length a byte follows that means nothing.
    const end = at + 8 + length + (length % 2)
    if (end > until) return null
    const body = bytes.subarray(at + 8, at + 8 + length)
    if (type === 'VP8X') {
      if (length < 10 || (body[0]! & ANIMATION) !== 0) return null
      canvas = { width: 1 + uint24(body, 4), height: 1 + uint24(body, 7) }
      parts.push(withoutFlags(bytes.subarray(at, end)))
    } else if (KEPT.has(type)) parts.push(bytes.subarray(at, end))
    if (type === 'VP8 ' || type === 'VP8L') {
      if (picture) return null
      picture = type === 'VP8 ' ? lossySize(body) : losslessSize(body)
      if (!picture) return null
    }
    at = end
  }
  if (!picture || picture.width === 0 || picture.height === 0) return null
  const chunks = joined(parts)
  const header = new Uint8Array(bytes.subarray(0, 12))
  viewOf(header).setUint32(4, chunks.length + 4, true)
  return { bytes: joined([header, chunks]), ...(canvas ?? picture) }
}

function withoutFlags(chunk: Uint8Array): Uint8Array {
  const changed = new Uint8Array(chunk)
  changed[8] = changed[8]! & ~METADATA
  return changed
}

const uint24 = (bytes: Uint8Array, at: number) => bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16)

/** RFC 6386, section 9.1: a key frame has a start code, then 14 bits of each side. */
function lossySize(body: Uint8Array): Size | null {
  if (body.length < 10 || body[3] !== 0x9d || body[4] !== 0x01 || body[5] !== 0x2a) return null
  const view = viewOf(body)
  return { width: view.getUint16(6, true) & 0x3fff, height: view.getUint16(8, true) & 0x3fff }
}

/** RFC 9649, section 3.4: a signature, then 14 bits of each side less one. */
function losslessSize(body: Uint8Array): Size | null {
  if (body.length < 5 || body[0] !== 0x2f) return null
  const bits = viewOf(body).getUint32(1, true)
  return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) }
}
