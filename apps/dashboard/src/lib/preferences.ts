import { isLanguage, type Reader } from '@clampclock/messages'

/** What a person has chosen; what is missing or null is as the browser has it. */
export type Preferences = {
  readonly [Choice in Exclude<keyof Reader, 'zone' | 'firstDay'>]?: Reader[Choice] | null
} & { readonly firstDay?: number | null }

/** Countries whose people measure in degF, fluid ounces and inches, by CLDR's measurement system 'US'. */
const US_MEASURES = new Set(['US', 'LR'])

/**
 * How somebody reads who chose nothing, or something: the rest is taken from his browser's language tag, such as
 * 'es-MX'. A language that the catalogue does not have is English.
 */
export function readerFrom(chosen: Preferences, browserLanguage: string): Reader {
  const locale = localeOf(browserLanguage)
  const isUs = US_MEASURES.has(locale.region ?? '')
  return {
    language: chosen.language ?? (isLanguage(locale.language) ? locale.language : 'en'),
    temperature: chosen.temperature ?? (isUs ? 'F' : 'C'),
    volume: chosen.volume ?? (isUs ? 'flOz' : 'mL'),
    length: chosen.length ?? (isUs ? 'in' : 'mm'),
    clock: chosen.clock ?? (isUs ? '12h' : '24h'),
    firstDay: (chosen.firstDay ?? (isUs ? 7 : 1)) as Reader['firstDay'],
    zone: 'UTC',
  }
}

function localeOf(tag: string): Intl.Locale {
  try {
    return new Intl.Locale(tag)
  } catch {
    return new Intl.Locale('en')
  }
}
