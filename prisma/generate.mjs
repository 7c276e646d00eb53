// Generates the database client. Prisma's CLI wants to download a schema engine that generating does not need;
// /bin/false in its place stops that, and makes `migrate` fail loudly instead of claiming success.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('..', import.meta.url))
const cli = fileURLToPath(new URL('../node_modules/prisma/build/index.js', import.meta.url))
const { status } = spawnSync(
  process.execPath,
  [cli, 'generate', '--schema', 'prisma/schema.prisma', '--no-hints'],
  {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: {
      ...process.env,
      PRISMA_SCHEMA_ENGINE_BINARY: process.platform === 'win32' ? 'false.exe' : '/bin/false',
      PRISMA_HIDE_UPDATE_MESSAGE: '1',
      CHECKPOINT_DISABLE: '1',
    },
  },
)
process.exitCode = status ?? 1
