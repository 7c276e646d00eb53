// `npm run bench -- NAME [options]`: compiles tests/bench/NAME.ts with everything it uses from packages/
// into one plain file, so that what is timed is what runs in production, and runs it.
import { existsSync, readdirSync } from 'node:fs'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build } from 'vite'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const [name, ...options] = process.argv.slice(2)
const entry = here(`./${name}.ts`)

if (!name || !existsSync(entry)) {
  const names = readdirSync(here('.'))
    .filter((file) => file.endsWith('.ts'))
    .map((file) => file.slice(0, -3))
  console.error(`npm run bench -- NAME [options]\nNAME is one of: ${names.join(', ') || '(none yet)'}`)
  process.exit(2)
}

const outDir = here(`../../node_modules/.cache/bench/${name}`)
await build({
  configFile: false,
  logLevel: 'error',
  root: here('../..'),
  build: { ssr: entry, outDir, emptyOutDir: true, target: 'node20', minify: false },
  ssr: { noExternal: [/^@clampclock\//] },
})
const file = `${outDir}/${name}.js`
process.argv = [process.argv[0], file, ...options]
await import(pathToFileURL(file).href)
