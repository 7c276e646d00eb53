/**
 * Plans for 1, 10 and 50 shops at once, in the worker threads of the service as it is served, on a PostgreSQL server;
 * meanwhile somebody reads: how long do other requests take?
 *
 * npm run bench -- schedule [--shops 1,10,50] [--orders 8] [--seconds 5] [--iterations 1000000] [--perSecond 20]
 */
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { startPostgres } from '../support/start-postgres.ts'

const { values } = parseArgs({
  options: {
    shops: { type: 'string', default: '1,10,50' },
    orders: { type: 'string', default: '8' },
    seconds: { type: 'string', default: '5' },
    iterations: { type: 'string', default: '1000000' },
    perSecond: { type: 'string', default: '20' },
  },
})
const rounds = values.shops.split(',').map(Number)
const DAYS = [1, 2, 3, 4, 5]
const PASSWORD = 'a password for the bench'
const HEAD =
  'number,vehicle,promisedAt,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template'

let token = ''
let base = ''
let caller = 0

/** As a caller of its own, so that the limit of requests of one caller does not count. */
async function send<Body = { id: string }>(method: string, path: string, body?: object): Promise<Body> {
  caller += 1
  const response = await fetch(base + path, {
    method,
    headers: {
      'x-forwarded-for': `10.${(caller >> 16) & 255}.${(caller >> 8) & 255}.${caller & 255}`,
      ...(token ? { authorization: `Bearer ${token}` } : {}),
      ...(body ? { 'content-type': 'application/json' } : {}),
    },
    ...(body ? { body: JSON.stringify(body) } : {}),
  })
  if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${await response.text()}`)
  return (response.status === 204 ? null : await response.json()) as Body
}

const postgres = await startPostgres()
const server = spawn(
  process.execPath,
  [fileURLToPath(new URL('../../../../apps/api/dist/main.js', import.meta.url)), '--empty'],
  {
    env: { ...process.env, PORT: '0', DATABASE_URL: postgres.url, TRUST_PROXY: 'true', LOG_LEVEL: 'error' },
    stdio: ['ignore', 'pipe', 'inherit'],
  },
)
const output = await new Promise<string>((resolve, reject) => {
  let text = ''
  server.stdout.on('data', (chunk: Buffer) => {
    text += chunk.toString()
    if (/code=\S+/.test(text)) resolve(text)
  })
  server.on('exit', () => reject(new Error(`the service did not start:\n${text}`)))
})
base = /ready: (http:\S+)/.exec(output)![1]!
await send('POST', '/v1/setup', {
  setupCode: /code=(\S+)/.exec(output)![1]!,
  organizationName: 'Bench chain',
  name: 'Bench',
  email: 'bench@bench.example',
  password: PASSWORD,
})
token = (
  await send<{ token: string }>('POST', '/v1/sessions', { email: 'bench@bench.example', password: PASSWORD })
).token
const product = await send('POST', '/v1/products', {
  name: 'Bench adhesive',
  chemistry: 'acrylic',
  mixRatio: '10:1',
  cartridgeForm: 'side-by-side 200',
  cartridgeMl: 200,
  openLifeDays: 30,
  storageRangeC: { min: 5, max: 30 },
  labelStorageC: 23,
  nozzleHoldUpMl: 8,
  glassBeadMm: 0.25,
  toleratesPrimer: false,
  sheet: {
    revision: 'A',
    issuedOn: '2026-01-01',
    points: [
      { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 720, fullCureMinutes: 2880 },
      { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 300, fullCureMinutes: 1440 },
    ],
    applicationRangeC: { min: 10, max: 35 },
    lowestCureC: 5,
    highestCureC: 80,
    serviceRangeC: { min: -40, max: 120 },
  },
})

// The sheet counts once somebody else has approved it.
const SECOND = { email: 'second@bench.example', password: PASSWORD }
await send('POST', '/v1/people', {
  ...SECOND,
  name: 'Second',
  memberships: [{ shopId: null, role: 'partsManager' }],
})
const first = token
token = (await send<{ token: string }>('POST', '/v1/sessions', SECOND)).token
const { sheets } = await send<{ sheets: { id: string }[] }>('GET', `/v1/products/${product.id}`)
await send('POST', `/v1/products/${product.id}/sheets/${sheets[0]!.id}/approval`, {})
token = first

/** Three bays, an oven, four people and `orders` vehicles, most of them promised too soon. */
async function makeShop(n: number): Promise<string> {
  const { id } = await send('POST', '/v1/shops', { name: `Shop ${n}`, timeZone: 'America/New_York' })
  const add = (body: object) => send('POST', `/v1/shops/${id}/resources`, body)
  for (const name of ['Bay 1', 'Bay 2', 'Bay 3']) {
    const bay = await add({ kind: 'bay', name })
    const sensor = { name: `Air of ${name}`, place: 'bay', resourceId: bay.id, accuracyC: 0.5 }
    const { id: sensorId } = await send('POST', `/v1/shops/${id}/sensors`, sensor)
    const readings = Array.from({ length: 200 }, (_, i) => ({
      at: new Date(Date.now() - i * 1_800_000).toISOString(),
      temperatureC: 20 + 3 * Math.sin((i / 48) * 2 * Math.PI),
    }))
    await send('POST', `/v1/sensors/${sensorId}/readings`, { readings })
  }
  await add({ kind: 'oven', name: 'Oven' })
  await add({ kind: 'clampSet', name: 'Clamps', capacity: 3 })
  for (const name of ['Ann', 'Ben', 'Cay', 'Dov'])
    await add({ kind: 'technician', name, skills: ['body', 'structural', 'paint', 'fitting'] })
  const shifts = DAYS.map((weekday) => ({ weekday, from: '07:00', until: '15:30' }))
  await send('PUT', `/v1/shops/${id}/workingHours`, { shifts })
  const lines = Array.from({ length: Number(values.orders) }, (_, i) => {
    const promised = new Date(Date.now() + (30 + 10 * i) * 3_600_000).toISOString()
    return `RO-${i},Invented Estate,${promised},Door skin,Bench adhesive,mildSteel,0.8,S3,2600,12,4,doorSkin`
  })
  await send('POST', `/v1/shops/${id}/repairOrderImports`, { csv: [HEAD, ...lines].join('\n') })
  return id
}

interface Round {
  readonly shops: number
  readonly seconds: number
  readonly plans: number
  readonly requests: number
  readonly p50Ms: number
  readonly p99Ms: number
  readonly idleP99Ms: number
}

/** Reads as a screen does, at a steady pace, until it is told to stop; each request's time in ms. */
function reader(shopIds: readonly string[]): { stop: () => Promise<number[]> } {
  const times: number[] = []
  const open: Promise<void>[] = []
  let n = 0
  const timer = setInterval(
    () => {
      n += 1
      const shopId = shopIds[n % shopIds.length]!
      const from = new Date().toISOString()
      const to = new Date(Date.now() + 3 * 86_400_000).toISOString()
      const path = [
        `/v1/bookings?shopId=${shopId}&from=${from}&to=${to}`,
        `/v1/shops/${shopId}/resources`,
        `/v1/repairOrders?shopId=${shopId}&limit=20`,
        '/v1/alerts?limit=20',
      ][n % 4]!
      const started = performance.now()
      open.push(send('GET', path).then(() => void times.push(performance.now() - started)))
    },
    1000 / Number(values.perSecond),
  )
  return {
    stop: async () => {
      clearInterval(timer)
      await Promise.all(open)
      return times.toSorted((a, b) => a - b)
    },
  }
}

const at = (sorted: readonly number[], share: number) =>
  Math.round(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]! * 10) / 10

async function round(shopIds: readonly string[]): Promise<Round> {
  const idle = reader(shopIds)
  await new Promise((resolve) => setTimeout(resolve, 5000))
  const idleTimes = await idle.stop()
  const busy = reader(shopIds)
  const started = performance.now()
  const body = { seconds: Number(values.seconds), iterations: Number(values.iterations) }
  const plans = await Promise.all(shopIds.map((id) => send('POST', `/v1/shops/${id}/plans`, body)))
  const left = new Set(plans.map(({ id }) => id))
  let drafts = 0
  while (left.size > 0) {
    for (const id of left) {
      const { state, fault } = await send<{ state: string; fault: string | null }>('GET', `/v1/plans/${id}`)
      if (state === 'solving') break
      if (state === 'failed') throw new Error(`a plan failed: ${fault}`)
      left.delete(id)
      drafts += 1
    }
    await new Promise((resolve) => setTimeout(resolve, 500))
  }
  const seconds = Math.round((performance.now() - started) / 100) / 10
  const times = await busy.stop()
  return {
    shops: shopIds.length,
    seconds,
    plans: drafts,
    requests: times.length,
    p50Ms: at(times, 0.5),
    p99Ms: at(times, 0.99),
    idleP99Ms: at(idleTimes, 0.99),
  }
}

const results: Round[] = []
try {
  const shopIds: string[] = []
  for (const shops of rounds) {
    while (shopIds.length < shops) shopIds.push(await makeShop(shopIds.length))
    const result = await round(shopIds.slice(0, shops))
    results.push(result)
    console.log(
      `${result.shops} shops: ${result.plans} plans in ${result.seconds} s; ${result.requests} other requests, ` +
        `median ${result.p50Ms} ms, 99 % within ${result.p99Ms} ms (${result.idleP99Ms} ms while nothing is planned)`,
    )
  }
  console.log(JSON.stringify({ bench: 'schedule', seconds: Number(values.seconds), results }))
} finally {
  server.kill('SIGTERM')
  await new Promise((resolve) => server.once('exit', resolve))
  await postgres.stop()
}
