import { IntlMessageFormat } from 'intl-messageformat'
import { LANGUAGES, type Language } from './languages.ts'

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

/**
 * The text of a key. What a language does not have yet is said in English; a key that nothing loaded is shown itself,
 * which tells at least where to look.
 */
export function fill(
  language: Language,
  key: string,
  values: Readonly<Record<string, string | number>>,
): string {
  const own = registered.get(language)?.get(key)
  if (own === undefined) return language === 'en' ? key : fill('en', key, values)
  if (typeof own === 'string' && !/[{']/.test(own)) return own
  const id = `${language}:${key}`
  let format = compiled.get(id)
  if (format === undefined) {
    // Text with < or > in it is text.
    format = new IntlMessageFormat(own as string, LANGUAGES[language].locale, undefined, { ignoreTag: true })
    compiled.set(id, format)
  }
  return String(format.format(values))
}
