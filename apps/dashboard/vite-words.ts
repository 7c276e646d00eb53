import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parse } from '@formatjs/icu-messageformat-parser'
import { runnerImport, type Plugin } from 'vite'
import { hasTags } from '../../packages/messages/src/patterns.ts'

const CATALOGUE = /\/packages\/messages\/src\/catalogue\/\w+\/[\w-]+\.ts$/
const SOURCES = ['../../packages/messages/src/', 'src/'].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
)

/** Parses the catalogue's patterns while building; what has no arguments stays text. */
export function patternsParsed(): Plugin {
  let short: ReadonlyMap<string, string> = new Map()
  return {
    name: 'patterns-parsed',
    configResolved({ command }) {
      if (command === 'build') short = shortKeys()
    },
    async load(id) {
      if (!CATALOGUE.test(id)) return null
      const { module } = await runnerImport<{ patterns: Record<string, string> }>(id, { configFile: false })
      const parsed = Object.entries(module.patterns).map(([key, pattern]) => [
        short.get(key) ?? key,
        /[{'<]/.test(pattern) ? parse(pattern, { ignoreTag: !hasTags(pattern) }) : pattern,
      ])
      return `export const patterns = ${JSON.stringify(Object.fromEntries(parsed))}`
    },
  }
}

/** Ships each key of the catalogue as a short one: their names are a third of what the words weigh. */
export function keysShortened(): Plugin {
  let short: ReadonlyMap<string, string> = new Map()
  return {
    name: 'keys-shortened',
    apply: 'build',
    enforce: 'pre',
    buildStart() {
      short = shortKeys()
    },
    transform(code, id) {
      if (!SOURCES.some((path) => id.startsWith(path)) || CATALOGUE.test(id)) return null
      return code.replaceAll(
        /(['"`])([a-z][\w-]*(?:\.[\w-]+)+)\1/gi,
        (quoted, quote: string, key: string) => {
          const shorter = short.get(key)
          return shorter === undefined ? quoted : `${quote}${shorter}${quote}`
        },
      )
    },
  }
}

/**
 * Two letters and a number for each key. Those that are put together at run time (`calendar.month.${n}`) keep their names,
 * and so does what the service may name in an answer.
 */
function shortKeys(): ReadonlyMap<string, string> {
  const files = SOURCES.flatMap((from) =>
    readdirSync(from, { recursive: true })
      .map((path) => `${from}${String(path)}`)
      .filter((path) => /\.tsx?$/.test(path)),
  )
  const beginnings = files.flatMap((path) =>
    [...readFileSync(path, 'utf8').matchAll(/`([a-z][\w-]*\.(?:[\w-]+\.)*)\$\{/gi)].map(
      ([, start = '']) => start,
    ),
  )
  const keys = files
    .filter((path) => path.includes('/catalogue/en/') && !path.includes('/service/'))
    .flatMap((path) => [...readFileSync(path, 'utf8').matchAll(/^ {2}'([^']+)':/gm)])
    .map(([, key = '']) => key)
    .filter((key) => !beginnings.some((start) => key.startsWith(start)))
  return new Map(keys.map((key, at) => [key, `ky${at.toString(36)}`]))
}
