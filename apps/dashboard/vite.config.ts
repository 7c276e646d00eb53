import { existsSync, readFileSync } from 'node:fs'
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { brotliCompress, gzip } from 'node:zlib'
import react from '@vitejs/plugin-react'
import { defineConfig, runnerImport, type Plugin } from 'vite'
import { shellKept } from './vite-shell.ts'
import { keysShortened, patternsParsed } from './vite-words.ts'

/** The API serves the built files; while developing, the API's paths are passed on to it. */
const api = process.env['CLAMPCLOCK_API'] ?? 'http://localhost:3000'

/** Parts of the component library that are heavy, and that nobody sees before he presses something. */
const HEAVY =
  /\b(Autocomplete|FileInput|Menu|Modal|MultiSelect|NumberInput|Popover|TagsInput|Textarea|useForm)\b/
const LIGHT =
  /\/(lucide-react|react-query|query-core|@mantine\/hooks)\/|\/components\/(Anchor|FloatingIndicator|PasswordInput|SegmentedControl|SimpleGrid|Stack|VisuallyHidden)\//
const SHARED = new RegExp(
  `${LIGHT.source}|/packages/quantities/|/src/(api(?!/acts/(?!state|task|the-box))|lib(?!/scaled-photo)|ui(?!/plot)|features(?!/(acts|scan|bonds|work|attachments)/))/|/features/bonds/(cautions|gates/refusal)`,
)
const BONDS =
  /\/packages\/cure\/|\/src\/features\/(bonds|work)\/(?!.*calls)[^/]+$|\/src\/api\/acts\/(use-act|about-bond)|\/src\/features\/acts\/kept-mark/

const EVERYWHERE = /\/catalogue\/\w+\/(calendar|api|app|features|lib|ui|words|sign-in)\.ts$/

function wordsOf(id: string): string {
  return `words-${/\/catalogue\/(\w+)\//.exec(id)?.[1] ?? ''}`
}

/** Whether a module is, or imports, a heavy field or dialog: no page waits for those. */
function isField(path: string): boolean {
  if (path.includes('/node_modules/')) return !LIGHT.test(path)
  if (!/\/src\/.*\.tsx?$/.test(path) || !existsSync(path)) return false
  const imports = readFileSync(path, 'utf8').matchAll(/^import (?!type)([\s\S]*?) from '([^']+)'/gm)
  return [...imports].some(([, names = '', from = '']) =>
    from.startsWith('@mantine/')
      ? HEAVY.test(names)
      : from.startsWith('.') && isField(fileURLToPath(new URL(from, `file://${path}`))),
  )
}

export default defineConfig({
  plugins: [
    react(),
    evaluated(fileURLToPath(new URL('src/api/contracts.ts', import.meta.url))),
    keysShortened(),
    patternsParsed(),
    shellKept(),
    precompressed(),
  ],
  // What the build has parsed needs no parser in the browser.
  resolve: {
    alias: [
      {
        find: /^@formatjs\/icu-messageformat-parser$/,
        replacement: '@formatjs/icu-messageformat-parser/no-parser.js',
      },
    ],
  },
  server: {
    port: 5173,
    proxy: { '/v1': api, '/health': api, '/openapi.json': api, '/docs': api },
  },
  build: {
    outDir: 'dist',
    target: 'es2022',
    // Says which files a screen needs: the weight of each is held by a test.
    manifest: true,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      treeshake: {
        // Of our packages' modules only what is used goes along. A schema that nobody uses has no effect either.
        moduleSideEffects: [{ test: /\/packages\/\w+\/src\//, sideEffects: false }],
        manualPureFunctions: ['z', 'defineRoute'],
      },
      output: {
        // A phone in the cabinet aisle waits for each request: what every page starts with is one file, and each screen
        // has its own. What several share are three more: fields and dialogs, bonds, and the rest.
        codeSplitting: {
          groups: [
            // What is said on every page is fetched as one, in one language.
            { name: wordsOf, debugName: 'words', test: EVERYWHERE, priority: 5 },
            { name: 'app', tags: ['$initial'], priority: 4 },
            { name: 'shared', test: (id) => SHARED.test(id) && !isField(id), minShareCount: 2, priority: 3 },
            { name: 'bonds', test: BONDS, minShareCount: 2, priority: 2 },
            { name: 'fields', test: (id) => isField(id), minShareCount: 2 },
          ],
        },
      },
    },
  },
})

/** Puts in a module's place what its exports come to, so that nothing of what they were worked out from is shipped. */
function evaluated(path: string): Plugin {
  return {
    name: 'evaluated-at-build',
    apply: 'build',
    async load(id) {
      if (id !== path) return null
      const { module } = await runnerImport<Record<string, unknown>>(id, { configFile: false })
      return Object.entries(module)
        .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)}\n`)
        .join('')
    },
  }
}

/** Writes each built file compressed beside it, as small as it gets: the service sends that, and compresses nothing twice. */
function precompressed(): Plugin {
  return {
    name: 'precompressed',
    apply: 'build',
    async writeBundle({ dir = '' }, bundle) {
      const files = Object.keys(bundle).filter((name) => /\.(js|css|html)$/.test(name))
      await Promise.all(
        files.map(async (name) => {
          const path = join(dir, name)
          const content = await readFile(path)
          await writeFile(`${path}.br`, await promisify(brotliCompress)(content))
          await writeFile(`${path}.gz`, await promisify(gzip)(content, { level: 9 }))
        }),
      )
    },
  }
}
