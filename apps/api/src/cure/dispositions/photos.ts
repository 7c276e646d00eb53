import { message } from '@clampclock/messages'
import { readPicture } from '../../foundation/pictures/picture.ts'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import { LEAST_SIDE } from '../attachments/picture-body.ts'

interface Sent {
  readonly mediaType: 'image/jpeg' | 'image/png'
  readonly base64: string
}

export interface Photo {
  readonly photo: Uint8Array<ArrayBuffer>
  readonly photoType: string
  readonly photoSha256: string
}

const MOST_BYTES = 1_048_576

/**
 * The photo of an inspection, without its metadata.
 *
 * @throws {ProblemError} `invalid-request` for what is too large, too small to see anything, or no picture of the kind that it says.
 */
export function toPhoto({ mediaType, base64 }: Sent, field: string): Photo {
  const sent = new Uint8Array(Buffer.from(base64, 'base64'))
  if (sent.length > MOST_BYTES)
    throw invalidField(field, message('cure-problem.photoTooLarge'), message('cure-problem.scaleDownFix'))
  const picture = readPicture(sent)
  if (picture?.mediaType !== mediaType)
    throw invalidField(
      field,
      message('cure-problem.noPicture', { type: mediaType }),
      message('cure-problem.sendPictureFix'),
    )
  if (Math.min(picture.width, picture.height) < LEAST_SIDE)
    throw invalidField(
      field,
      message('cure-problem.fewPixels', { width: picture.width, height: picture.height }),
      message('cure-problem.pixelsFix', { least: LEAST_SIDE }),
    )
  return { photo: picture.bytes, photoType: mediaType, photoSha256: picture.sha256 }
}
