import { parse, TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser'
import { IntlMessageFormat } from 'intl-messageformat'
import { describe, expect, it } from 'vitest'
import { areas as enAreas } from './catalogue/en.ts'
import { service as enService } from './catalogue/en-service.ts'
import { areas as esAreas } from './catalogue/es.ts'
import { service as esService } from './catalogue/es-service.ts'
import { LANGUAGES } from './languages.ts'
import { hasTags } from './patterns.ts'

const en = { ...enAreas, ...enService }
const es = { ...esAreas, ...esService }

type Flat = Readonly<Record<string, string>>
const flat = (areas: object): Flat => Object.assign({}, ...Object.values(areas)) as Flat
const CATALOGUES = { en: flat(en), es: flat(es) }

function argumentsIn(elements: readonly MessageFormatElement[]): string[] {
  return elements.flatMap((element) => {
    if (element.type === TYPE.literal || element.type === TYPE.pound) return []
    if (element.type === TYPE.tag) return argumentsIn(element.children)
    if (element.type === TYPE.plural || element.type === TYPE.select)
      return [element.value, ...Object.values(element.options).flatMap(({ value }) => argumentsIn(value))]
    return [element.value]
  })
}
const sorted = (names: Iterable<string>) => [...new Set(names)].toSorted()
const parsed = (pattern: string) => parse(pattern, { ignoreTag: !hasTags(pattern) })
function tagsIn(elements: readonly MessageFormatElement[]): string[] {
  return elements.flatMap((element) => {
    if (element.type === TYPE.tag) return [element.value, ...tagsIn(element.children)]
    if (element.type !== TYPE.plural && element.type !== TYPE.select) return []
    return Object.values(element.options).flatMap(({ value }) => tagsIn(value))
  })
}
const asTyped = (pattern: string) =>
  sorted([...pattern.matchAll(/(?<![A-Za-z0-9])\{([^},]*)[},]/g)].map(([, name = '']) => name))

function choices(elements: readonly MessageFormatElement[]): [string, string][] {
  return elements.flatMap((element) =>
    element.type === TYPE.select || element.type === TYPE.plural
      ? [
          ...(element.type === TYPE.select
            ? Object.keys(element.options).map((each): [string, string] => [element.value, each])
            : []),
          ...Object.values(element.options).flatMap(({ value }) => choices(value)),
        ]
      : [],
  )
}

describe.each(Object.entries(CATALOGUES))('the catalogue in %s', (language, catalogue) => {
  it('has its keys once, each in the area that it names', () => {
    const areas = language === 'en' ? en : es
    for (const [area, patterns] of Object.entries(areas))
      expect(Object.keys(patterns).filter((key) => !key.startsWith(`${area}.`))).toEqual([])
  })

  it('begins and ends each sentence with something that is seen', () => {
    const blank = /^[\s,.;:·]|[\s,;]$/
    expect(Object.entries(catalogue).filter(([, pattern]) => blank.test(pattern))).toEqual([])
  })

  it.each(Object.entries(catalogue))('says %s', (key, pattern) => {
    const elements = parsed(pattern)
    const names = sorted(argumentsIn(elements))
    expect(names).toEqual(asTyped(pattern))
    expect(names).toEqual(sorted(argumentsIn(parsed(CATALOGUES.en[key]!))))
    const tags = sorted(tagsIn(elements))
    expect(tags).toEqual(sorted([...pattern.matchAll(/<\/([^>]*)>/g)].map(([, name = '']) => name)))
    expect(tags).toEqual(sorted(tagsIn(parsed(CATALOGUES.en[key]!))))
    expect(choices(elements).map(String).toSorted()).toEqual(
      choices(parsed(CATALOGUES.en[key]!)).map(String).toSorted(),
    )
    const format = new IntlMessageFormat(pattern, LANGUAGES[language as 'en'].locale, undefined, {
      ignoreTag: !hasTags(pattern),
    })
    const said = (value: string | number) =>
      format.format({
        ...Object.fromEntries(names.map((name) => [name, value])),
        ...Object.fromEntries(tags.map((tag) => [tag, String])),
      })
    const takesText = !/plural|number/.test(pattern)
    for (const value of [0, 1, 2, -1, 1e9, 0.1, 'other', '{x}', 'ñ'.repeat(500)])
      if (typeof value === 'number' || takesText) expect(said(value)).not.toBe('')
    // A sentence may be what somebody wrote, and nothing else.
    if (takesText) expect(() => said('')).not.toThrow()
  })
})
