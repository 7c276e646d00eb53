import type { Area } from './keys.ts'
import type { Language } from './languages.ts'
import { register, type Patterns } from './patterns.ts'

const loading = new Map<string, Promise<void>>()

let through = (patterns: Patterns): Patterns => patterns

/** Has all that is loaded from now on go through a change, such as the pseudo-language's. */
export function changeWords(change: (patterns: Patterns) => Patterns): void {
  through = change
}

type Part = Area | 'everywhere'

async function fetchPart(language: Language, part: Part): Promise<void> {
  // One file a language and area: a bundler makes a part of each.
  const { patterns } = (await (part === 'everywhere'
    ? import(`./everywhere/${language}.ts`)
    : import(`./catalogue/${language}/${part}.ts`))) as { readonly patterns: Patterns }
  register(language, through(patterns))
}

/** Fetches areas of a language, or what is said `everywhere`, once each; rejects when one cannot be had, and tries again when asked again. */
export async function loadAreas(language: Language, parts: readonly Part[]): Promise<void> {
  await Promise.all(
    parts.map((part) => {
      const id = `${language}/${part}`
      const known = loading.get(id)
      if (known !== undefined) return known
      const started = fetchPart(language, part).catch((error: unknown) => {
        loading.delete(id)
        throw error
      })
      loading.set(id, started)
      return started
    }),
  )
}
