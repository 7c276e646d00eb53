import { joined, textAt, viewOf, type Bare } from './bare.ts'

const [SOI, EOI, SOS, DQT, DHT, DAC, DRI] = [0xd8, 0xd9, 0xda, 0xdb, 0xc4, 0xcc, 0xdd]
const [APP0, APP1, APP2, APP14] = [0xe0, 0xe1, 0xe2, 0xee]
/** What a decoder needs, besides frame headers. */
const KEPT: ReadonlySet<number> = new Set([SOS, DQT, DHT, DAC, DRI])

/**
 * A JPEG (ITU-T T.81, annex B) without EXIF, XMP, IPTC, comments, thumbnails, further pictures and whatever follows its end. Its
 * colour profile stays, and which way up it is: a photo of a phone lies on its side without.
 *
 * @returns null for what is no whole JPEG.
 */
export function bareJpeg(bytes: Uint8Array): Bare | null {
  const view = viewOf(bytes)
  if (bytes.length < 4 || view.getUint16(0) !== 0xff00 + SOI) return null
  const parts: Uint8Array[] = [bytes.subarray(0, 2)]
  let size: { width: number; height: number } | undefined
  let orientation = 1
  let hasScan = false
  for (let at = 2; ;) {
    if (bytes[at] !== 0xff) return null
    // Any marker may have more of these before it.
    while (bytes[at + 1] === 0xff) at += 1
    const marker = bytes[at + 1]
    if (marker === EOI) break
    if (marker === undefined || marker < 0xc0 || (marker >= 0xd0 && marker <= SOI)) return null
    if (at + 4 > bytes.length) return null
    const length = view.getUint16(at + 2)
    let end = at + 2 + length
    if (length < 2 || end > bytes.length) return null
    const body = bytes.subarray(at + 4, end)
    if (isFrame(marker)) {
      if (size || body.length < 6) return null
      size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) }
    }
    if (marker === SOS) {
      if (!size) return null
      end = endOfScan(bytes, end)
      hasScan = true
    }
    if (marker === APP1 && orientation === 1) orientation = orientationOf(body)
    if (KEPT.has(marker) || isFrame(marker) || isOfThePicture(marker, body))
      parts.push(marker === APP0 ? plainJfif(body) : bytes.subarray(at, end))
    at = end
  }
  if (!size || !hasScan || size.width === 0 || size.height === 0) return null
  if (orientation !== 1) parts.splice(startsWithJfif(parts) ? 2 : 1, 0, orientationAlone(orientation))
  parts.push(Uint8Array.of(0xff, EOI))
  const { width, height } = size
  return { bytes: joined(parts), ...(orientation >= 5 ? { width: height, height: width } : size) }
}

/** A header of a frame: its length, then precision, height, width. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== DHT && marker !== 0xc8 && marker !== DAC
}

function isOfThePicture(marker: number, body: Uint8Array): boolean {
  if (marker === APP0) return textAt(body, 0, 5) === 'JFIF\0' && body.length >= 12
  if (marker === APP2) return textAt(body, 0, 12) === 'ICC_PROFILE\0'
  // How colours were transformed: without it some are shown in the wrong ones.
  return marker === APP14 && textAt(body, 0, 5) === 'Adobe'
}

/** JFIF (ITU-T T.871) without its thumbnail. */
function plainJfif(body: Uint8Array): Uint8Array {
  return joined([Uint8Array.of(0xff, APP0, 0, 16), body.subarray(0, 12), Uint8Array.of(0, 0)])
}

const startsWithJfif = (parts: readonly Uint8Array[]) => parts[1]?.[1] === APP0

/** Where the entropy-coded data that begins at `from` is over: at a marker that is neither a stuffed byte nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at += 1) {
    if (bytes[at] !== 0xff) continue
    const next = bytes[at + 1]!
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at
  }
  return bytes.length
}

const EXIF = 'Exif\0\0'
const ORIENTATION = 0x0112

/** Which way up, 1 to 8 (EXIF 2.32, tag 0112 hex); 1 where nothing, or nothing that is one, says so. */
function orientationOf(body: Uint8Array): number {
  if (textAt(body, 0, EXIF.length) !== EXIF || body.length < EXIF.length + 10) return 1
  const tiff = viewOf(body.subarray(EXIF.length))
  const isLittle = tiff.getUint16(0) === 0x4949
  if (!isLittle && tiff.getUint16(0) !== 0x4d4d) return 1
  const directory = tiff.getUint32(4, isLittle)
  if (directory + 2 > tiff.byteLength) return 1
  const count = tiff.getUint16(directory, isLittle)
  for (let i = 0; i < count; i += 1) {
    const entry = directory + 2 + 12 * i
    if (entry + 12 > tiff.byteLength) return 1
    if (tiff.getUint16(entry, isLittle) !== ORIENTATION) continue
    const value = tiff.getUint16(entry + 8, isLittle)
    return value >= 1 && value <= 8 ? value : 1
  }
  return 1
}

/** An EXIF segment that holds the orientation, and nothing else. */
function orientationAlone(orientation: number): Uint8Array {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0]
  const body = [...Buffer.from(EXIF, 'latin1'), ...tiff, 0, 0, 0, 0]
  return Uint8Array.of(0xff, APP1, 0, body.length + 2, ...body)
}
