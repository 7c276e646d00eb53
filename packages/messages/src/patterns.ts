import { TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser'
import { IntlMessageFormat } from 'intl-messageformat'
import { LANGUAGES, type Language } from './languages.ts'

type Element = MessageFormatElement

/** An ICU pattern: its text, or what the build made of it, so that a page needs no parser. */
export type Pattern = string | readonly unknown[]
export type Patterns = Readonly<Record<string, Pattern>>

const registered = new Map<Language, Map<string, Pattern>>()
const compiled = new Map<string, IntlMessageFormat>()

/** Makes patterns known: of one area, or of a whole language. Later ones replace earlier ones of the same key. */
export function register(language: Language, patterns: Patterns): void {
  const known = registered.get(language) ?? new Map<string, Pattern>()
  for (const [key, pattern] of Object.entries(patterns)) {
    known.set(key, pattern)
    compiled.delete(`${language}:${key}`)
  }
  registered.set(language, known)
}

type Values = Readonly<Record<string, unknown>>

/** Whether a pattern has tags, by an end such as `</link>`; in any other, < and > are text. */
export function hasTags(pattern: string): boolean {
  return /<\/[a-z]+>/i.test(pattern)
}

const numbers = new Map<Language, Intl.NumberFormat>()

/** A number as the language writes it, without groups: '1234.5', '1234,5'. */
export function plainNumber(language: Language, value: number): string {
  let format = numbers.get(language)
  if (format === undefined) {
    const options = { useGrouping: false, maximumFractionDigits: 6 }
    format = new Intl.NumberFormat(LANGUAGES[language].locale, options)
    numbers.set(language, format)
  }
  return format.format(value)
}

/** What a number is shown by goes under a name of its own: the number itself is counted by plural forms. */
const shownName = (name: string) => `${name} shown`

function withShown(elements: readonly Element[]): Element[] {
  return elements.map((each): Element => {
    if (each.type === TYPE.argument) return { ...each, value: shownName(each.value) }
    if (each.type === TYPE.tag) return { ...each, children: withShown(each.children) }
    if (each.type !== TYPE.plural && each.type !== TYPE.select) return each
    const options = Object.entries(each.options).map(([name, option]) => [
      name,
      { ...option, value: withShown(option.value) },
    ])
    return { ...each, options: Object.fromEntries(options) as typeof each.options } as Element
  })
}

function compile(language: Language, pattern: Pattern): IntlMessageFormat {
  const { locale } = LANGUAGES[language]
  const elements =
    typeof pattern === 'string'
      ? new IntlMessageFormat(pattern, locale, undefined, { ignoreTag: !hasTags(pattern) }).getAst()
      : (pattern as readonly Element[])
  return new IntlMessageFormat(withShown(elements), locale)
}

/** The same as `fill`, where parameters and tags may be more than text: pieces in their order. */
export function fillParts(language: Language, key: string, values: Values): readonly unknown[] {
  const own = registered.get(language)?.get(key)
  if (own === undefined) return language === 'en' ? [key] : fillParts('en', key, values)
  if (typeof own === 'string' && !/[{'<]/.test(own)) return [own]
  const id = `${language}:${key}`
  let format = compiled.get(id)
  if (format === undefined) {
    format = compile(language, own)
    compiled.set(id, format)
  }
  const all: Record<string, unknown> = { ...values }
  for (const [name, value] of Object.entries(values))
    all[shownName(name)] = typeof value === 'number' ? plainNumber(language, value) : value
  const parts = format.format(all as Record<string, string>) as string | readonly unknown[]
  return Array.isArray(parts) ? parts : [parts]
}

/**
 * The text of a key. What a language does not have yet is said in English; a key that nothing loaded is shown itself,
 * which tells at least where to look.
 */
export function fill(
  language: Language,
  key: string,
  values: Readonly<Record<string, string | number>>,
): string {
  return fillParts(language, key, values).join('')
}
