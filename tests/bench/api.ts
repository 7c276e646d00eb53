/**
 * Requests a second of the reads that screens live on, eight clients at a time, on a real PostgreSQL with the demo chain,
 * beside a bare Node server that does the least for the same question; in turns, so that a busy machine is busy for both.
 *
 * npm run bench -- api [--seconds 4] [--clients 8] [--rounds 2]
 */
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { startPostgres } from '../support/start-postgres.ts'

const { values } = parseArgs({
  options: {
    seconds: { type: 'string', default: '4' },
    clients: { type: 'string', default: '8' },
    rounds: { type: 'string', default: '2' },
    bare: { type: 'string' },
  },
})

let callers = 0

if (values.bare) {
  // The bare server has a process of its own, as the service has.
  const { startBareServer } = await import('./api/bare-server.ts')
  console.log(`ready: ${(await startBareServer(values.bare)).base}`)
} else {
  await bench()
}

interface Served {
  readonly base: string
  readonly stop: () => void
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
  try {
    const token = await signIn(service.base)
    const get = async <Body>(path: string) =>
      (await (await fetch(service.base + path, { headers: headersOf(token) })).json()) as Body
    const shop = (await get<{ items: { id: string }[] }>('/v1/shops')).items[0]!.id
    const bond = (await get<{ items: { id: string }[] }>(`/v1/bonds?shopId=${shop}`)).items[0]!.id
    const reads = [
      ['stock list', `/v1/cartridges?shopId=${shop}&limit=50`, `/stock?id=${shop}`],
      ['bond page', `/v1/bonds/${bond}`, `/bond?id=${bond}`],
      ['bay board', `/v1/shops/${shop}/bayBoard`, `/board?id=${shop}`],
      ['overview', '/v1/overview', `/overview?id=${shop}`],
    ] as const
    const answers: Record<string, { service: number; bare: number; share: number }> = {}
    for (const [name, path, barePath] of reads) {
      const rates = { service: [] as number[], bare: [] as number[] }
      for (let round = 0; round < Number(values.rounds); round++) {
        rates.bare.push(await perSecond(bare.base + barePath, token))
        rates.service.push(await perSecond(service.base + path, token))
      }
      const [ours, theirs] = [mean(rates.service), mean(rates.bare)]
      answers[name] = { service: round1(ours), bare: round1(theirs), share: round1(ours / theirs, 100) }
      console.log(`${name.padEnd(12)} service ${ours.toFixed(0)}/s, bare ${theirs.toFixed(0)}/s`)
    }
    console.log(JSON.stringify({ bench: 'api', clients: Number(values.clients), ...answers }))
  } finally {
    service.stop()
    bare.stop()
    await postgres.stop()
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
      if (base) resolve({ base, stop: () => void child.kill('SIGTERM') })
    })
    child.on('exit', () => reject(new Error(`it did not start:\n${text}`)))
  })
}

async function signIn(base: string): Promise<string> {
  const body = JSON.stringify({ email: 'owner@bramblewick.example', password: 'clamp-the-whole-flange' })
  const response = await fetch(`${base}/v1/sessions`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body,
  })
  return ((await response.json()) as { token: string }).token
}

/** As a caller of its own, so that the limit of requests of one caller does not count. */
function headersOf(token: string): Record<string, string> {
  const caller = (callers += 1)
  return {
    authorization: `Bearer ${token}`,
    'x-forwarded-for': `10.${(caller >> 16) & 255}.${(caller >> 8) & 255}.${caller & 255}`,
  }
}

async function perSecond(url: string, token: string): Promise<number> {
  const until = performance.now() + Number(values.seconds) * 1000
  const from = performance.now()
  let done = 0
  const client = async () => {
    while (performance.now() < until) {
      const response = await fetch(url, { headers: headersOf(token) })
      if (!response.ok) throw new Error(`${url}: ${response.status} ${await response.text()}`)
      await response.arrayBuffer()
      done += 1
    }
  }
  await Promise.all(Array.from({ length: Number(values.clients) }, client))
  return (done * 1000) / (performance.now() - from)
}

function mean(all: readonly number[]): number {
  return all.reduce((sum, each) => sum + each, 0) / all.length
}

function round1(value: number, to = 10): number {
  return Math.round(value * to) / to
}
