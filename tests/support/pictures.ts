import { crc32, deflateSync } from 'node:zlib'
import { PHOTO } from './fixtures.ts'

const ascii = (text: string) => Buffer.from(text, 'latin1')

/** What must be in no picture that is kept: each stands in a place where a camera or a program writes it. */
export const SECRETS = [
  'GPS',
  'N41.8827',
  'exif:GPSLatitude',
  'Invented Camera 9',
  'Photoshop 3.0',
  'taken at the yard',
  'second picture',
  '2031:05:07 12:00:00',
] as const

function segment(marker: number, body: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0])
  head.writeUInt16BE(body.length + 2, 2)
  return Buffer.concat([head, body])
}

/** TIFF of an EXIF block: orientation, model, date, and a GPS directory with a place (EXIF 2.32, 4.6). */
export function exifWithPlace(orientation = 1): Buffer {
  const tiff = Buffer.alloc(200)
  tiff.write('II', 0, 'latin1')
  tiff.writeUInt16LE(42, 2)
  tiff.writeUInt32LE(8, 4)
  const entry = (at: number, tag: number, type: number, count: number, value: number) => {
    tiff.writeUInt16LE(tag, at)
    tiff.writeUInt16LE(type, at + 2)
    tiff.writeUInt32LE(count, at + 4)
    tiff.writeUInt32LE(value, at + 8)
  }
  tiff.writeUInt16LE(4, 8)
  entry(10, 0x0110, 2, 18, 100)
  entry(22, 0x0112, 3, 1, orientation)
  entry(34, 0x0132, 2, 20, 120)
  entry(46, 0x8825, 4, 1, 62)
  tiff.writeUInt16LE(2, 62)
  entry(64, 0x0001, 2, 2, 0x4e)
  entry(76, 0x001d, 2, 9, 150)
  tiff.write('Invented Camera 9\0', 100, 'latin1')
  tiff.write('2031:05:07 12:00:00\0', 120, 'latin1')
  tiff.write('N41.8827\0', 150, 'latin1')
  tiff.write('GPS', 170, 'latin1')
  return tiff
}

interface Jpeg {
  readonly width?: number
  readonly height?: number
  readonly orientation?: number
  /** Bytes of entropy-coded data. */
  readonly data?: number
  readonly withMetadata?: boolean
}

/** A JPEG as its structure goes (ITU-T T.81, annex B), with all that a phone puts beside the picture. */
export function jpeg(options: Jpeg = {}): Buffer {
  const { width = 640, height = 480, orientation = 6, data = 3000, withMetadata = true } = options
  const frame = Buffer.from([8, 0, 0, 0, 0, 1, 1, 0x11, 0])
  frame.writeUInt16BE(height, 1)
  frame.writeUInt16BE(width, 3)
  const metadata = [
    segment(0xe1, Buffer.concat([ascii('Exif\0\0'), exifWithPlace(orientation)])),
    segment(0xe1, ascii('http://ns.adobe.com/xap/1.0/\0<x exif:GPSLatitude="41,52.96N"/>')),
    segment(0xed, ascii('Photoshop 3.0\u00008BIM')),
    segment(0xfe, ascii('taken at the yard')),
  ]
  // A stuffed byte and a restart marker are no end of the data.
  const scan = Buffer.alloc(data, 0x5a)
  scan.set([0xff, 0x00, 0xff, 0xd0], 100)
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, ascii('JFIF\0\u0001\u0001\0\0\u0001\0\u0001\0\0')),
    ...(withMetadata ? metadata : []),
    segment(0xe2, ascii('ICC_PROFILE\0\u0001\u0001profile')),
    segment(0xdb, Buffer.alloc(65, 1)),
    segment(0xc0, frame),
    segment(0xc4, Buffer.alloc(20)),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    scan,
    Buffer.from([0xff, 0xd9]),
    ...(withMetadata ? [ascii('second picture, GPS')] : []),
  ])
}

function chunk(type: string, body: Buffer): Buffer {
  const whole = Buffer.alloc(12 + body.length)
  whole.writeUInt32BE(body.length, 0)
  whole.write(type, 4, 'latin1')
  body.copy(whole, 8)
  whole.writeUInt32BE(crc32(whole.subarray(4, 8 + body.length)), 8 + body.length)
  return whole
}

interface Png {
  readonly bits?: number
  readonly colour?: number
  readonly interlace?: number
  /** What its data unpack to; as it is where it cannot be packed. */
  readonly lines?: Buffer
  readonly packed?: Buffer
}

/** A PNG of 320 x 240 with a header and data of one's own. */
export function pngOf({ bits = 8, colour = 0, interlace = 0, lines, packed }: Png): Buffer {
  const header = Buffer.from([0, 0, 1, 64, 0, 0, 0, 240, bits, colour, 0, 0, interlace])
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', packed ?? deflateSync(lines ?? Buffer.alloc(240 * 321))),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** The PNG of the fixtures, with texts and EXIF, and something after its end. */
export function png(): Buffer {
  const bare = Buffer.from(PHOTO.base64, 'base64')
  const afterHeader = 8 + 25
  return Buffer.concat([
    bare.subarray(0, afterHeader),
    chunk('tEXt', ascii('Comment\0taken at the yard')),
    chunk('eXIf', exifWithPlace()),
    chunk('tIME', Buffer.from([7, 0xef, 5, 7, 12, 0, 0])),
    bare.subarray(afterHeader),
    ascii('second picture'),
  ])
}

function riff(type: string, body: Buffer): Buffer {
  const head = Buffer.alloc(8)
  head.write(type, 0, 'latin1')
  head.writeUInt32LE(body.length, 4)
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)])
}

/** A WebP of 640 x 480 (RFC 9649), extended, with EXIF and XMP; `flags` of its header besides. */
export function webp(flags = 0): Buffer {
  const extended = Buffer.alloc(10)
  extended[0] = 0x08 | 0x04 | flags
  extended.writeUIntLE(639, 4, 3)
  extended.writeUIntLE(479, 7, 3)
  const lossy = Buffer.from([0, 0, 0, 0x9d, 0x01, 0x2a, 0x80, 0x02, 0xe0, 0x01, 1, 2, 3])
  const body = Buffer.concat([
    ascii('WEBP'),
    riff('VP8X', extended),
    riff('VP8 ', lossy),
    riff('EXIF', exifWithPlace()),
    riff('XMP ', ascii('<x exif:GPSLatitude="41,52.96N"/>')),
  ])
  return riff('RIFF', body)
}
