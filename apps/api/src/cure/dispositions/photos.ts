import { createHash } from 'node:crypto'
import { imageSize } from 'image-size'
import { invalidField } from '../../foundation/problems/problem-error.ts'

interface Sent {
  readonly mediaType: 'image/jpeg' | 'image/png'
  readonly base64: string
}

export interface Photo {
  readonly photo: Uint8Array<ArrayBuffer>
  readonly photoType: string
  readonly photoSha256: string
}

const TYPES: Readonly<Record<Sent['mediaType'], string>> = { 'image/jpeg': 'jpg', 'image/png': 'png' }

const MOST_BYTES = 1_048_576
/** Smaller than this nobody sees a bond line on it. Common practice, no source. */
const LEAST_PIXELS = 200

/** @throws {ProblemError} `invalid-request` for what is too large, too small to see anything, or no picture of the kind that it says. */
export function toPhoto({ mediaType, base64 }: Sent, field: string): Photo {
  const photo = new Uint8Array(Buffer.from(base64, 'base64'))
  if (photo.length > MOST_BYTES) throw invalidField(field, 'is larger than 1 MB', 'Scale it down')
  const size = sizeOf(photo)
  if (size?.type !== TYPES[mediaType])
    throw invalidField(field, `is no ${mediaType}`, 'Send a JPEG or PNG picture')
  if (Math.min(size.width, size.height) < LEAST_PIXELS)
    throw invalidField(
      field,
      `is only ${size.width} × ${size.height} pixels`,
      `Send a photo of at least ${LEAST_PIXELS} × ${LEAST_PIXELS}`,
    )
  return { photo, photoType: mediaType, photoSha256: createHash('sha256').update(photo).digest('hex') }
}

function sizeOf(photo: Uint8Array): ReturnType<typeof imageSize> | undefined {
  try {
    return imageSize(photo)
  } catch {
    return undefined
  }
}
