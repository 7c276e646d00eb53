import { existsSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { usePasswordCost } from './foundation/access/secrets.ts'
import { nobodyExists, SetUpCode } from './foundation/access/set-up.ts'
import { buildApp } from './app.ts'
import { readConfig, type Config } from './foundation/config/config.ts'
import { connect } from './foundation/database/connect.ts'
import type { Database } from './foundation/database/database.ts'
import { demoSignIns } from './demo/people.ts'
import { prepareDemo } from './demo/permit.ts'
import type { App } from './foundation/http/app-type.ts'
import { startAllWork } from './queues.ts'

/** The process: configuration, start, address, clean end. The only file that may end it. */

// Both from apps/api/src and from apps/api/dist the repository's root is three folders up.
const fromRoot = (path: string) => fileURLToPath(new URL(`../../../${path}`, import.meta.url))

async function main(): Promise<void> {
  const config = readConfig(process.env, process.argv.slice(2))
  usePasswordCost(config.passwordCost)
  const database = await connect(config, fromRoot('prisma/migrations'))
  const setUpCode = new SetUpCode()
  const app = await serve(config, database, setUpCode)
  endCleanly(app, database, await startAllWork(app))
  await greet(app, config, setUpCode)
}

async function serve(config: Config, database: Database, setUpCode: SetUpCode): Promise<App> {
  try {
    await prepareDemo(database, config.demo, new Date())
    const dashboardFolder = fromRoot('apps/dashboard/dist')
    const app = await buildApp({
      config,
      database,
      setUpCode,
      ...(existsSync(dashboardFolder) ? { dashboardFolder } : {}),
    })
    await app.listen({ port: config.port, host: config.host })
    return app
  } catch (error) {
    await database.close()
    throw error
  }
}

async function greet(app: App, config: Config, setUpCode: SetUpCode): Promise<void> {
  const { port } = app.server.address() as AddressInfo
  const host = config.host === '0.0.0.0' || config.host === '::' ? 'localhost' : config.host
  const address = `http://${host}:${port}`
  const where = config.databaseUrl ? 'a PostgreSQL server' : `the embedded database in ${config.dataDir}`
  console.log(
    `\nClampclock is ready: ${address}   (API: ${address}/docs)\nIt keeps its data in ${where}. Ctrl-C ends it.`,
  )
  if (await nobodyExists(app.database)) {
    console.log(
      `\nNobody can sign in yet. Create the first owner here:\n  ${address}/setup?code=${setUpCode.value}`,
    )
    return
  }
  const people = await demoSignIns(app.database)
  if (people.length === 0) return
  if (config.isOpen)
    console.warn(
      '\nWARNING: others reach this service, and the passwords below are printed in the README: anybody can sign in and change everything. Put nothing real in it.',
    )
  console.log('\nDemo sign-ins (an invented chain; everything in it is made up):')
  for (const person of people)
    console.log(`  ${person.email.padEnd(34)} ${person.password}   ${person.role}, ${person.shop}`)
}

function endCleanly(app: App, database: Database, stopWork: () => Promise<void>): void {
  let ending = false
  const end = (signal: NodeJS.Signals) => {
    // A second Ctrl-C means now.
    if (ending) process.exit(1)
    ending = true
    console.log(`\n${signal}: finishing what is under way …`)
    void stopWork()
      .then(() => app.close())
      .then(() => database.close())
      .then(() => process.exit(0))
      .catch((error: unknown) => {
        console.error(error)
        process.exit(1)
      })
  }
  process.on('SIGINT', end)
  process.on('SIGTERM', end)
}

try {
  await main()
} catch (error) {
  // A person at a terminal wants the sentence, not the stack.
  console.error(`\nClampclock could not start.\n${error instanceof Error ? error.message : String(error)}`)
  if (process.env['LOG_LEVEL'] === 'debug') console.error(error)
  process.exit(1)
}
