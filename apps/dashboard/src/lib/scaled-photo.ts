export interface ScaledPhoto {
  readonly mediaType: 'image/jpeg'
  readonly base64: string
}

/** Enough to see the edge of a panel by, small enough for a shop's network, pixels along the longer side. */
const LONGEST_SIDE = 1600
/** Of what is sent, bytes. */
const MOST_BYTES = 400_000

/**
 * The picture drawn anew as a JPEG of at most 400 kB: that scales it down, and leaves behind where and with what it was
 * taken.
 *
 * @throws {Error} When the file is no picture that the browser can read.
 */
export async function scaledPhoto(file: Blob): Promise<ScaledPhoto> {
  // As it was held: what says so is left behind.
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
  for (const [side, quality] of [
    [LONGEST_SIDE, 0.8],
    [LONGEST_SIDE, 0.65],
    [LONGEST_SIDE, 0.5],
    [LONGEST_SIDE / 2, 0.6],
    [LONGEST_SIDE / 4, 0.5],
  ] as const) {
    const url = draw(picture, side, quality)
    const base64 = url.slice(url.indexOf(',') + 1)
    if (base64.length * 0.75 <= MOST_BYTES) return { mediaType: 'image/jpeg', base64 }
  }
  throw new Error('the picture does not get small enough')
}

function draw(picture: ImageBitmap, longest: number, quality: number): string {
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(picture.width * scale))
  canvas.height = Math.max(1, Math.round(picture.height * scale))
  const context = canvas.getContext('2d')
  if (context === null) throw new Error('this browser draws no pictures')
  // A JPEG lets nothing shine through.
  context.fillStyle = 'white'
  context.fillRect(0, 0, canvas.width, canvas.height)
  context.drawImage(picture, 0, 0, canvas.width, canvas.height)
  return canvas.toDataURL('image/jpeg', quality)
}
