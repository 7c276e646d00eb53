import { MOST_PHOTO_BYTES } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import { readPicture, type Picture } from '../../foundation/pictures/picture.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'

/** A small file may say of itself that it is huge: who opens it would wait for memory. 40 million: a camera of today. */
const MOST_PIXELS = 40_000_000
/** Smaller than this nobody sees a bond line on it. Common practice, no source. */
export const LEAST_SIDE = 200

/** @throws {ProblemError} `invalid-request` for what is too large, too small to see anything, or no picture. */
export function toPicture(base64: string): Picture {
  const field = 'body.base64'
  const sent = new Uint8Array(Buffer.from(base64, 'base64'))
  if (sent.length > MOST_PHOTO_BYTES)
    throw invalidField(
      field,
      message('attachment.tooLarge', { kilobytes: Math.ceil(sent.length / 1000) }),
      message('attachment.tooLargeFix'),
    )
  const picture = readPicture(sent)
  if (!picture) throw invalidField(field, message('attachment.noPicture'), message('attachment.noPictureFix'))
  const { width, height } = picture
  if (width * height > MOST_PIXELS)
    throw invalidField(
      field,
      message('attachment.tooManyPixels', { width, height }),
      message('attachment.tooLargeFix'),
    )
  if (Math.min(width, height) < LEAST_SIDE)
    throw invalidField(
      field,
      message('attachment.tooSmall', { width, height }),
      message('attachment.tooSmallFix', { side: LEAST_SIDE }),
    )
  return picture
}
