// Builds what is missing or older than its sources: the database client, the dashboard, the server.
// `npm start` and `npm test` run it first, so a fresh clone needs no further command.
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../../..', import.meta.url))
const vite = join(root, 'node_modules/vite/bin/vite.js')

const steps = [
  {
    name: 'database client',
    sources: ['prisma/schema.prisma', 'prisma/generate.mjs', 'package-lock.json'],
    result: 'apps/api/src/generated/prisma/client.ts',
    command: ['prisma/generate.mjs'],
  },
  {
    name: 'dashboard',
    sources: ['apps/dashboard', 'packages', 'package-lock.json'],
    result: 'apps/dashboard/dist/index.html',
    command: [vite, 'build', 'apps/dashboard', '--logLevel', 'warn'],
  },
  {
    name: 'server',
    sources: ['apps/api', 'packages', 'prisma/schema.prisma', 'package-lock.json'],
    result: 'apps/api/dist/main.js',
    command: [vite, 'build', 'apps/api'],
  },
]

const [client, ...rest] = steps
await build(client)
// Each keeps one core busy: together they take as long as the longer one.
await Promise.all(rest.map((step) => build(step)))

async function build({ name, sources, result, command }) {
  const stamp = join(root, 'node_modules/.cache/clampclock', `${name.replace(' ', '-')}.sha256`)
  const fingerprint = fingerprintOf(sources)
  const known = existsSync(stamp) ? readFileSync(stamp, 'utf8') : ''
  if (known === fingerprint && existsSync(join(root, result))) return
  console.log(`Building the ${name} …`)
  const child = spawn(process.execPath, command, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  })
  const [status] = await once(child, 'exit')
  if (status !== 0) {
    console.error(`Building the ${name} failed. If packages are missing, run \`npm ci\` first.`)
    process.exit(1)
  }
  mkdirSync(join(stamp, '..'), { recursive: true })
  writeFileSync(stamp, fingerprint)
}

/** By content and not by date: a fresh clone or another branch has any date. */
function fingerprintOf(sources) {
  const hash = createHash('sha256')
  for (const file of sources.flatMap((source) => filesIn(source)).sort())
    hash
      .update(file)
      .update('\0')
      .update(readFileSync(join(root, file)))
      .update('\0')
  return hash.digest('hex')
}

function filesIn(path) {
  if (/\.(test|property\.test)\.tsx?$|\.md$/.test(path) || /(^|\/)(dist|generated|node_modules)$/.test(path))
    return []
  const full = join(root, path)
  if (!existsSync(full)) return []
  const entries = readdirSafely(full)
  return entries === null ? [path] : entries.flatMap((entry) => filesIn(`${path}/${entry}`))
}

function readdirSafely(path) {
  try {
    return readdirSync(path)
  } catch {
    return null
  }
}
