/**
 * Stock in a small, a large and a very large chain, each with the same number of movements in its ledger: what a person
 * waits for. A real PostgreSQL 18; 100 cartridges on hand in each shop, everything else used up. Times in ms.
 *
 * npm run bench -- stock [--shops 4,50,500] [--movements 1000000] [--times 60]
 */
import { parseArgs } from 'node:util'
import { fileURLToPath } from 'node:url'
import pg from 'pg'
import { allocate } from '@clampclock/stock'
import { NO_PREFERENCES, type Actor } from '../../apps/api/src/foundation/permissions/actor.ts'
import { connect } from '../../apps/api/src/foundation/database/connect.ts'
import type { Tx } from '../../apps/api/src/foundation/database/database.ts'
import { inChain } from '../../apps/api/src/foundation/database/in-chain.ts'
import { Prisma } from '../../apps/api/src/generated/prisma/client.ts'
import { wasteOf } from '../../apps/api/src/supply/replenishment/waste.ts'
import { listCartridges } from '../../apps/api/src/supply/cartridges/cartridges.ts'
import { selectCartridges } from '../../apps/api/src/supply/cartridges/cartridge-store.ts'
import { recallOf } from '../../apps/api/src/supply/lots/recall.ts'
import { startPostgres } from '../support/start-postgres.ts'
import { fillStock } from './stock/fill.ts'

const { values } = parseArgs({
  options: {
    shops: { type: 'string', default: '4,50,500' },
    movements: { type: 'string', default: '1000000' },
    times: { type: 'string', default: '60' },
  },
})
const sizes = values.shops.split(',').map(Number)
const times = Number(values.times)
// From node_modules/.cache/bench/stock/, where the bench is compiled to.
const migrations = fileURLToPath(new URL('../../../../prisma/migrations', import.meta.url))
const now = new Date()

interface Figures {
  readonly p50: number
  readonly p99: number
}

const server = await startPostgres()
const results: Record<number, Record<string, Figures>> = {}
try {
  for (const shops of sizes) results[shops] = await measure(shops)
} finally {
  await server.stop()
}
const growth = Object.fromEntries(
  Object.keys(results[sizes[0]!]!).map((what) => [
    what,
    round(results[sizes.at(-1)!]![what]!.p50 / results[sizes[0]!]![what]!.p50),
  ]),
)
console.log(JSON.stringify({ bench: 'stock', movements: Number(values.movements), results, growth }))

async function measure(shops: number): Promise<Record<string, Figures>> {
  const name = `bench_${shops}`
  const client = new pg.Client({ connectionString: `${server.url}/postgres` })
  await client.connect()
  await client.query(`create database ${name}`)
  await client.end()
  const database = await connect({ dataDir: '', databaseUrl: `${server.url}/${name}` }, migrations)
  try {
    const { organizationId, shopIds, productIds, lotIds } = await fillStock(
      `${server.url}/${name}`,
      shops,
      Number(values.movements),
    )
    const actor: Actor = {
      kind: 'person',
      id: organizationId,
      name: 'Bench',
      email: null,
      organization: { id: organizationId, name: 'Bench' },
      memberships: [{ shopId: null, role: 'owner' }],
      preferences: NO_PREFERENCES,
      token: null,
      session: null,
    }
    const pick = <T>(list: readonly T[], i: number): T => list[(i * 7919) % list.length]!
    const works: Record<string, (tx: Tx, i: number) => Promise<unknown>> = {
      list: (tx, i) => listCartridges(tx, actor, { limit: 100, shopId: pick(shopIds, i) }, now),
      listChain: (tx) => listCartridges(tx, actor, { limit: 100 }, now),
      allocation: (tx, i) => allocateIn(tx, pick(shopIds, i), pick(productIds, i)),
      recall: (tx, i) => recallOf(tx, actor, pick(lotIds, i), now),
      wasteForecast: (tx, i) => wasteOf(tx, actor, { shopId: pick(shopIds, i) }, now),
    }
    const figures: Record<string, Figures> = {}
    for (const [what, work] of Object.entries(works)) {
      const waited: number[] = []
      for (let i = 0; i < times + 5; i += 1) {
        const start = performance.now()
        await inChain(database, organizationId, (tx) => work(tx, i))
        // The first few warm the caches, as in a service that runs.
        if (i >= 5) waited.push(performance.now() - start)
      }
      figures[what] = { p50: quantile(waited, 0.5), p99: quantile(waited, 0.99) }
      console.log(`${shops} shops, ${what}: p50 ${figures[what].p50} ms, p99 ${figures[what].p99} ms`)
    }
    return figures
  } finally {
    await database.close()
  }
}

async function allocateIn(tx: Tx, shopId: string, productId: string): Promise<void> {
  const rows = await selectCartridges(
    tx,
    Prisma.sql`c.state in ('sealed', 'opened') and c.shop_id = ${shopId}::uuid and l.product_id = ${productId}::uuid`,
    1000,
  )
  const candidates = rows.map((row) => ({
    id: row.id,
    state: row.state as 'sealed' | 'opened',
    remainingMl: row.remaining_ul / 1000,
    effectiveExpiryMs: row.expires_at.getTime(),
    expiryOnceOpenedMs: row.expires_at.getTime(),
    receivedAtMs: row.received_at.getTime(),
  }))
  allocate(candidates, { amountMl: 60, nozzleMl: 8, atMs: now.getTime() + 86_400_000 })
}

function quantile(sample: readonly number[], share: number): number {
  const sorted = sample.toSorted((a, b) => a - b)
  return round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!)
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
