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

/** How somebody reads in this browser who has chosen nothing, or something. */
export function browsersReader(chosen: Preferences = {}): Reader {
  return readerFrom({ ...chosen, language: chosen.language ?? keptLanguage() ?? null }, navigator.language)
}
