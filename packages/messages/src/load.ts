import type { Area } from './keys.ts'
import type { Language } from './languages.ts'
import { register, type Patterns } from './patterns.ts'

const loading = new Map<string, Promise<void>>()

async function fetchArea(language: Language, area: Area): Promise<void> {
  // One file a language and area: a bundler makes a part of each.
  const { patterns } = (await import(`./catalogue/${language}/${area}.ts`)) as { readonly patterns: Patterns }
  register(language, patterns)
}

/** Fetches areas of a language, once each; rejects when one cannot be had, and tries again when asked again. */
export async function loadAreas(language: Language, areas: readonly Area[]): Promise<void> {
  await Promise.all(
    areas.map((area) => {
      const id = `${language}/${area}`
      const known = loading.get(id)
      if (known !== undefined) return known
      const started = fetchArea(language, area).catch((error: unknown) => {
        loading.delete(id)
        throw error
      })
      loading.set(id, started)
      return started
    }),
  )
}
