import { inflateSync } from 'node:zlib'

/** What a PDF of the standard fonts says, in the order in which it was drawn; nothing of fonts or places. */
export function pdfText(pdf: Buffer): string {
  const raw = pdf.toString('latin1')
  return (
    [...raw.matchAll(/stream\n([\s\S]*?)\nendstream/g)]
      .map(([, body = '']) => inflated(Buffer.from(body, 'latin1')))
      .flatMap((content) =>
        [...content.matchAll(/\[([^\]]*)\] TJ/g)].map(([, parts = '']) =>
          [...parts.matchAll(/<([0-9a-f]*)>/gi)]
            .map(([, hex = '']) => Buffer.from(hex, 'hex').toString('latin1'))
            .join(''),
        ),
      )
      .join('\n')
      // A value and its unit are on one line; what they say is the same.
      .replaceAll('\u00A0', ' ')
  )
}

/** A picture or a font is none of its text. */
function inflated(stream: Buffer): string {
  try {
    return inflateSync(stream).toString('latin1')
  } catch {
    return ''
  }
}
