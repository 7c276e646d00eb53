/**
 * What screens live on, on a real PostgreSQL with the demo chain. Compare within one run.
 *
 * reads    requests a second, eight clients at a time, beside a bare Node server that does the least for the same question;
 *          in turns, so that a busy machine is busy for both. Once while nobody writes, so that answers of the same second
 *          are told again, and once while the chain is written to 50 times a second, so that each is made anew.
 * shops    how long they take where the database holds 4, 50 and 500 shops, in chains of four; written to all the while.
 * screens  500 open screens while readings arrive, and what memory the service takes.
 *
 * npm run bench -- api [--parts reads,shops,screens] [--seconds 4] [--clients 8] [--rounds 2]
 */
import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import pg from 'pg'
import { startPostgres } from '../support/start-postgres.ts'
import { askFor, percentile, read, signIn } from './api/asked.ts'
import { copyChain, type Copied } from './api/more-chains.ts'
import { openScreens } from './api/screens.ts'

const { values } = parseArgs({
  options: {
    parts: { type: 'string', default: 'reads,shops,screens' },
    seconds: { type: 'string', default: '4' },
    clients: { type: 'string', default: '8' },
    rounds: { type: 'string', default: '2' },
    screens: { type: 'string', default: '500' },
    shops: { type: 'string', default: '4,50,500' },
    bare: { type: 'string' },
  },
})
const seconds = Number(values.seconds)
const clients = Number(values.clients)

if (values.bare) {
  // The bare server has a process of its own, as the service has.
  const { startBareServer } = await import('./api/bare-server.ts')
  console.log(`ready: ${(await startBareServer(values.bare)).base}`)
} else {
  await bench()
}

interface Served {
  readonly base: string
  readonly pid: number
  readonly stop: () => void
}

interface Question {
  readonly name: string
  readonly path: string
  readonly barePath: string
}

async function bench(): Promise<void> {
  const postgres = await startPostgres()
  const main = fileURLToPath(new URL('../../../../apps/api/dist/main.js', import.meta.url))
  const service = await serve([main, '--demo'], {
    PORT: '0',
    DATABASE_URL: postgres.url,
    TRUST_PROXY: 'true',
    LOG_LEVEL: 'error',
  })
  const bare = await serve([process.argv[1]!, '--bare', postgres.url], {})
  const client = new pg.Client({ connectionString: postgres.url })
  await client.connect()
  const parts = values.parts.split(',')
  try {
    const token = await signIn(service.base)
    const questions = await questionsOf(service.base, token)
    const memoryMb: Record<string, number> = { atRest: await memoryOf(service.pid) }
    const result: Record<string, unknown> = { bench: 'api', clients }
    if (parts.includes('reads')) result['reads'] = await measureReads(service, bare, client, questions, token)
    const chains: Copied[] = [{ organizationId: '', token }]
    if (parts.includes('shops'))
      result['p99Ms'] = await measureShops(service, client, questions, token, chains)
    if (parts.includes('screens')) {
      const screens = { screens: Number(values.screens), seconds: 20, readingsPerSecond: 5 }
      memoryMb['beforeScreens'] = await memoryOf(service.pid)
      result['screens'] = await openScreens(service.base, chains, screens)
      console.log('screens', result['screens'])
      memoryMb['withScreens'] = await memoryOf(service.pid)
    }
    await new Promise((resolve) => setTimeout(resolve, 5000))
    memoryMb['after'] = await memoryOf(service.pid)
    console.log('memory, MB', memoryMb)
    console.log(JSON.stringify({ ...result, memoryMb }))
  } finally {
    service.stop()
    bare.stop()
    await client.end()
    await postgres.stop()
  }
}

async function questionsOf(base: string, token: string): Promise<Question[]> {
  const listed = async (path: string) => (await read<{ items: { id: string }[] }>(base + path, token)).items
  const shop = (await listed('/v1/shops'))[0]!.id
  const bond = (await listed(`/v1/bonds?shopId=${shop}`))[0]!.id
  return [
    { name: 'stock list', path: `/v1/cartridges?shopId=${shop}&limit=50`, barePath: `/stock?id=${shop}` },
    { name: 'bond page', path: `/v1/bonds/${bond}`, barePath: `/bond?id=${bond}` },
    { name: 'bay board', path: `/v1/shops/${shop}/bayBoard`, barePath: `/board?id=${shop}` },
    { name: 'overview', path: '/v1/overview', barePath: `/overview?id=${shop}` },
  ]
}

async function measureReads(
  service: Served,
  bare: Served,
  client: pg.Client,
  questions: readonly Question[],
  token: string,
): Promise<Record<string, object>> {
  const answers: Record<string, object> = {}
  for (const { name, path, barePath } of questions) {
    const rates = { bare: [] as number[], service: [] as number[], madeAnew: [] as number[] }
    for (let round = 0; round < Number(values.rounds); round++) {
      const ours = () => askFor(seconds, clients, service.base + path, token)
      rates.bare.push((await askFor(seconds, clients, bare.base + barePath, token)).perSecond)
      rates.service.push((await ours()).perSecond)
      rates.madeAnew.push((await whileWritten(client, ours)).perSecond)
    }
    const [theirs, ours, anew] = [rates.bare, rates.service, rates.madeAnew].map(mean) as [
      number,
      number,
      number,
    ]
    answers[name] = {
      bare: round(theirs),
      service: round(ours),
      share: round(ours / theirs, 100),
      madeAnew: round(anew),
      madeAnewShare: round(anew / theirs, 100),
    }
    console.log(name.padEnd(12), answers[name])
  }
  return answers
}

async function measureShops(
  service: Served,
  client: pg.Client,
  questions: readonly Question[],
  token: string,
  chains: Copied[],
): Promise<Record<string, Record<string, object>>> {
  const measured: Record<string, Record<string, object>> = {}
  for (const shops of values.shops.split(',').map(Number)) {
    const wanted = Math.ceil(shops / 4)
    if (wanted > chains.length) {
      chains.push(...(await copyChain(client, chains.length, wanted)))
      console.log(`${chains.length} chains`)
    }
    for (const { name, path } of questions) {
      const ours = () => askFor(seconds, clients, service.base + path, token)
      // Plans of statements are made anew after so much was added.
      await ours()
      const [quiet, written] = [await ours(), await whileWritten(client, ours)]
      measured[name] ??= {}
      measured[name][shops] = {
        quiet: round(percentile(quiet.tookMs, 0.99)),
        written: round(percentile(written.tookMs, 0.99)),
      }
      console.log(`${shops} shops`.padEnd(10), name.padEnd(12), measured[name][shops])
    }
  }
  return measured
}

/** As if somebody of the demo chain wrote 50 times a second. */
async function whileWritten<Result>(client: pg.Client, work: () => Promise<Result>): Promise<Result> {
  let isOver = false
  const write = async () => {
    while (!isOver) {
      await client.query(`insert into change_mark
        select id, id, -1, 1 from organization where is_demo order by created_at limit 1
        on conflict (organization_id, scope_id, session) do update set transaction = change_mark.transaction + 1`)
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }
  const writing = write()
  try {
    return await work()
  } finally {
    isOver = true
    await writing
  }
}

function serve(args: string[], environment: Record<string, string>): Promise<Served> {
  const child = spawn(process.execPath, args, {
    env: { ...process.env, ...environment },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  return new Promise((resolve, reject) => {
    let text = ''
    child.stdout.on('data', (chunk: Buffer) => {
      text += chunk.toString()
      const base = /ready: (http:\S+)/.exec(text)?.[1]
      if (base) resolve({ base, pid: child.pid!, stop: () => void child.kill('SIGTERM') })
    })
    child.on('exit', () => reject(new Error(`it did not start:\n${text}`)))
  })
}

/** Resident, MB; only where the system tells it as a file. */
async function memoryOf(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '')
  return Math.round(Number(/VmRSS:\s+(\d+)/.exec(text)?.[1]) / 1024)
}

function mean(all: readonly number[]): number {
  return all.reduce((sum, each) => sum + each, 0) / all.length
}

function round(value: number, to = 10): number {
  return Math.round(value * to) / to
}
