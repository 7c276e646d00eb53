import { createHash } from 'node:crypto'
import { invalidField } from '../http/problem-error.ts'

interface Sent {
  readonly mediaType: 'image/jpeg' | 'image/png'
  readonly base64: string
}

export interface Photo {
  readonly photo: Uint8Array<ArrayBuffer>
  readonly photoType: string
  readonly photoSha256: string
}

/** How a file of each kind begins: ISO/IEC 10918-1 (SOI and a marker), ISO/IEC 15948 (signature). */
const BEGINS: Readonly<Record<Sent['mediaType'], readonly number[]>> = {
  'image/jpeg': [0xff, 0xd8, 0xff],
  'image/png': [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
}

const MOST_BYTES = 1_048_576

/** @throws {ProblemError} `invalid-request` for what is too large, or no picture of the kind that it says. */
export function toPhoto({ mediaType, base64 }: Sent, field: string): Photo {
  const photo = new Uint8Array(Buffer.from(base64, 'base64'))
  if (photo.length > MOST_BYTES) throw invalidField(field, 'is larger than 1 MB', 'Scale it down')
  if (!BEGINS[mediaType].every((byte, i) => photo[i] === byte))
    throw invalidField(field, `is no ${mediaType}`, 'Send a JPEG or PNG picture')
  return { photo, photoType: mediaType, photoSha256: createHash('sha256').update(photo).digest('hex') }
}
