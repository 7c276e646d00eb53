import { areas as en } from './catalogue/en.ts'
import { service as enService } from './catalogue/en-service.ts'
import { areas as es } from './catalogue/es.ts'
import { service as esService } from './catalogue/es-service.ts'
import type { Language } from './languages.ts'
import { register } from './patterns.ts'

const CATALOGUES: Readonly<Record<Language, Readonly<Record<string, Readonly<Record<string, string>>>>>> = {
  en: { ...en, ...enService },
  es: { ...es, ...esService },
}

/** Makes every language known, all areas: for a service, which answers each reader. */
export function registerAll(): void {
  for (const [language, areas] of Object.entries(CATALOGUES))
    for (const patterns of Object.values(areas)) register(language as Language, patterns)
}

/** What the contract says of a field in so many words: its English is looked up, and told in the reader's. */
export { patterns as FIELD_PATTERNS } from './catalogue/en/service/field.ts'
