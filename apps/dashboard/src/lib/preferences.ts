import { isLanguage, readerFrom, type Language, type Preferences, type Reader } from '@clampclock/messages'

const KEPT = 'clampclock.language'

/** The language that was chosen in this browser before anybody signed in; undefined for none. */
function keptLanguage(): Language | undefined {
  const kept = globalThis.localStorage?.getItem(KEPT) ?? ''
  return isLanguage(kept) ? kept : undefined
}

/** Keeps it for whoever has chosen no language of his own. */
export function keepLanguage(language: Language): void {
  localStorage.setItem(KEPT, language)
}

/**
 * What the service is asked for (RFC 9110, 12.5.4) where another language was chosen before signing in than the browser's:
 * the same as the screen is in, with the browser's country for units. Undefined: as the browser asks by itself.
 */
export function acceptedLanguage(): string | undefined {
  const language = keptLanguage()
  if (language === undefined) return undefined
  const region = /-([A-Z]{2})\b/.exec(navigator.language)?.[1]
  return region === undefined ? language : `${language}-${region}`
}

/** How somebody reads in this browser who has chosen nothing, or something. */
export function browsersReader(chosen: Preferences = {}): Reader {
  return readerFrom({ ...chosen, language: chosen.language ?? keptLanguage() ?? null }, navigator.language)
}
