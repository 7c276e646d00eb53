interface LanguageFacts {
  /** Its own name for itself. */
  readonly name: string
  /** BCP 47, for numbers, lists and plural forms. */
  readonly locale: string
  /** Whether a native speaker of the trade has read it. */
  readonly reviewed: boolean
}

/** A further language is one folder of the catalogue with its list, and its line here. */
export const LANGUAGES = {
  // Lists without a comma before 'and', as the rest of the screens is written.
  en: { name: 'English', locale: 'en-GB', reviewed: true },
  es: { name: 'Español', locale: 'es', reviewed: false },
} as const satisfies Record<string, LanguageFacts>

export type Language = keyof typeof LANGUAGES

/** Whether a text names a language of the catalogue. */
export function isLanguage(text: string): text is Language {
  return Object.hasOwn(LANGUAGES, text)
}
