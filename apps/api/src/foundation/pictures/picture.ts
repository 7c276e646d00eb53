import { createHash } from 'node:crypto'
import type { Bare } from './bare.ts'
import { bareJpeg } from './jpeg.ts'
import { barePng } from './png.ts'
import { bareWebp } from './webp.ts'

export type PictureType = 'image/jpeg' | 'image/png' | 'image/webp'

/** A picture as it may be kept: nothing in it says where, when or with what it was taken. */
export interface Picture extends Bare {
  readonly mediaType: PictureType
  /** Of its bytes, hexadecimal. */
  readonly sha256: string
}

const READERS: readonly (readonly [PictureType, (bytes: Uint8Array) => Bare | null])[] = [
  ['image/jpeg', bareJpeg],
  ['image/png', barePng],
  ['image/webp', bareWebp],
]

/**
 * What the bytes are, whatever anybody calls them, without their metadata. The structure of the file is read, of a PNG also
 * whether there are as many pixels as it says, and none of them is looked at: a decoder of ours would be one more that a
 * crafted file could harm.
 *
 * @returns null for what is no whole JPEG, PNG or still WebP.
 */
export function readPicture(bytes: Uint8Array): Picture | null {
  for (const [mediaType, read] of READERS) {
    const bare = read(bytes)
    if (bare) return { mediaType, ...bare, sha256: createHash('sha256').update(bare.bytes).digest('hex') }
  }
  return null
}
