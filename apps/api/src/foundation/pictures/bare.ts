/** A picture with nothing in it that is not the picture. Width and height in pixels, as it is shown. */
export interface Bare {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly width: number
  readonly height: number
}

/** The ASCII text of `length` bytes from `from`. */
export function textAt(bytes: Uint8Array, from: number, length: number): string {
  return String.fromCharCode(...bytes.subarray(from, from + length))
}

export function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
}

export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}
