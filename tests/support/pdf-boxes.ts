import PDFDocument from 'pdfkit'

/** A run of text as it lies on the page, in points from the top left; as high as its letters with accents and tails. */
export interface TextBox {
  readonly text: string
  readonly page: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** Of the type size, above and below the baseline: the bounds of the letters of Helvetica (its AFM file, FontBBox). */
const ABOVE = 0.931
const BELOW = 0.225

/** Where each run of text of an uncompressed PDF in Helvetica lies, from the operators of its pages. */
export function textBoxes(pdf: Uint8Array): TextBox[] {
  const raw = Buffer.from(pdf).toString('latin1')
  const fonts = new Map(
    [...raw.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name = '', object = '']) => {
      const found = new RegExp(`(?:^|\\n)${object} 0 obj[\\s\\S]*?/BaseFont /([\\w-]+)`).exec(raw)
      return [name, found?.[1] ?? 'Helvetica'] as const
    }),
  )
  const measure = new PDFDocument({ autoFirstPage: false })
  const pages = [...raw.matchAll(/stream\n([\s\S]*?)\nendstream/g)]
    .map(([, content = '']) => content)
    .filter((content) => / Tf\n/.test(content))
  return pages.flatMap((content, page) => {
    const height = Number(/1 0 0 -1 0 ([\d.]+) cm/.exec(content)![1])
    const shown = /1 0 0 1 ([\d.-]+) ([\d.-]+) Tm\n\/(F\d+) ([\d.]+) Tf\n(?:[^\n[]*\n)*?\[([^\]]*)\] TJ/g
    return [...content.matchAll(shown)].map(([, x = '', y = '', font = '', size = '', parts = '']) => {
      const text = [...parts.matchAll(/<([0-9a-f]*)>/gi)]
        .map(([, hex = '']) => Buffer.from(hex, 'hex').toString('latin1'))
        .join('')
      const points = Number(size)
      const width = measure.font(fonts.get(font)!).fontSize(points).widthOfString(text)
      const baseline = height - Number(y)
      return {
        text,
        page,
        left: Number(x),
        right: Number(x) + width,
        top: baseline - points * ABOVE,
        bottom: baseline + points * BELOW,
      }
    })
  })
}
