import { isLanguage } from './languages.ts'
import type { Reader } from './reader.ts'

/** What a person has chosen; what is missing or null is as the languages say that he asks for. */
export type Preferences = {
  readonly [Choice in Exclude<keyof Reader, 'zone' | 'firstDay' | 'unitOfShop'>]?: Reader[Choice] | null
} & { readonly firstDay?: number | null }

/** Countries whose people measure in degF, fluid ounces and inches, by CLDR's measurement system 'US'. */
const US_MEASURES = new Set(['US', 'LR'])

/**
 * How somebody reads who chose nothing, or something: the rest is taken from a language tag, such as his browser's 'es-MX'.
 * A language that the catalogue does not have is English. A tag without a country says nothing of units.
 */
export function readerFrom(chosen: Preferences, tag: string): Reader {
  const locale = localeOf(tag)
  const isUs = US_MEASURES.has(locale.region ?? '')
  return {
    language: chosen.language ?? (isLanguage(locale.language) ? locale.language : 'en'),
    temperature: chosen.temperature ?? (isUs ? 'F' : 'C'),
    volume: chosen.volume ?? (isUs ? 'flOz' : 'mL'),
    length: chosen.length ?? (isUs ? 'in' : 'mm'),
    clock: chosen.clock ?? (isUs ? '12h' : '24h'),
    firstDay: (chosen.firstDay ?? (isUs ? 7 : 1)) as Reader['firstDay'],
    zone: 'UTC',
    ...(chosen.temperature || locale.region !== undefined ? {} : { unitOfShop: true }),
  }
}

function localeOf(tag: string): Intl.Locale {
  try {
    return new Intl.Locale(tag)
  } catch {
    return new Intl.Locale('en')
  }
}
