import { parse, TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser'
import { hasTags, type Patterns } from './patterns.ts'

const ACCENTED: Readonly<Record<string, string>> = Object.fromEntries(
  [...'aáeéiíoóuúcçnñyýsšzžAÁEÉIÍOÓUÚCÇNÑSŠ'.matchAll(/(.)(.)/g)].map(([, plain = '', accented = '']) => [
    plain,
    accented,
  ]),
)
/** Marks of the two ends: what stands outside of them is not from the catalogue. */
export const ENDS = ['⟦', '⟧'] as const

const accented = (text: string) => text.replaceAll(/[a-zA-Z]/g, (letter) => ACCENTED[letter] ?? letter)

const literal = (value: string) => ({ type: TYPE.literal as const, value })

function lengthOf(elements: readonly MessageFormatElement[]): number {
  return elements.reduce((sum, each) => {
    if (each.type === TYPE.literal) return sum + each.value.length
    if (each.type === TYPE.tag) return sum + lengthOf(each.children)
    if (each.type !== TYPE.plural && each.type !== TYPE.select) return sum
    return sum + Math.max(...Object.values(each.options).map(({ value }) => lengthOf(value)))
  }, 0)
}

function changed(elements: readonly MessageFormatElement[]): MessageFormatElement[] {
  return elements.map((each) => {
    if (each.type === TYPE.literal) return { ...each, value: accented(each.value) }
    // What a tag encloses is drawn by itself, and has its own ends.
    if (each.type === TYPE.tag)
      return { ...each, children: [literal(ENDS[0]), ...changed(each.children), literal(ENDS[1])] }
    if (each.type !== TYPE.plural && each.type !== TYPE.select) return each
    const options = Object.entries(each.options).map(([name, option]) => [
      name,
      { ...option, value: changed(option.value) },
    ])
    return { ...each, options: Object.fromEntries(options) as typeof each.options } as typeof each
  })
}

/** Groups of five, so that lines break as they do between words. */
function padding(length: number): string {
  return ` ${'·'.repeat(Math.max(1, length))}`.replaceAll(/·{5}(?=·)/g, '····· ')
}

/**
 * A language that nobody speaks, made from English: accents on its letters, longer by 40 %, its ends marked. Seen on a
 * screen it shows what is not from the catalogue, and what is cut.
 */
export function pseudo(patterns: Patterns): Patterns {
  return Object.fromEntries(
    Object.entries(patterns).map(([key, pattern]) => {
      const elements =
        typeof pattern !== 'string'
          ? (pattern as readonly MessageFormatElement[])
          : /[{'<]/.test(pattern)
            ? parse(pattern, { ignoreTag: !hasTags(pattern) })
            : [{ type: TYPE.literal as const, value: pattern }]
      const more = padding(Math.ceil(lengthOf(elements) * 0.4))
      return [key, [literal(ENDS[0]), ...changed(elements), literal(`${more}${ENDS[1]}`)]]
    }),
  )
}
