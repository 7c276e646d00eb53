import { ROUTES, type RouteContract } from '@clampclock/contracts'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { areas as en } from '../../packages/messages/src/catalogue/en.ts'
import { service as enService } from '../../packages/messages/src/catalogue/en-service.ts'
import { areas as es } from '../../packages/messages/src/catalogue/es.ts'
import { service as esService } from '../../packages/messages/src/catalogue/es-service.ts'
import { buildApp } from '../../apps/api/src/app.ts'
import { watchAll } from '../../apps/api/src/attention/watch/watch.ts'
import { loadDemo } from '../../apps/api/src/demo/load.ts'
import { DEMO_PASSWORD, DEMO_PEOPLE } from '../../apps/api/src/demo/people.ts'
import type { App } from '../../apps/api/src/foundation/http/app-type.ts'
import { freshDatabase, type TestDatabase } from '../support/databases.ts'
import { Client, CONFIG, NOON } from '../support/test-app.ts'

/** The English of the catalogue that Spanish says otherwise, as what a text that says it looks like. */
const ENGLISH = sentences()

describe('what a reader of Spanish is answered about the demo chain', () => {
  let test: TestDatabase
  let app: App
  let owner: Client
  beforeAll(async () => {
    test = await freshDatabase('embedded')
    await loadDemo(test.database, NOON)
    await watchAll(test.database, NOON)
    const { database } = test
    app = await buildApp({
      config: CONFIG,
      database,
      clock: () => NOON,
      requestsPerMinute: 1_000_000,
      mostDelayMs: 0,
    })
    await app.listen({ port: 0, host: '127.0.0.1' })
    const { email } = DEMO_PEOPLE.find(({ role, shop }) => role === 'owner' && shop === null)!
    const body = { email, password: DEMO_PASSWORD }
    const { token } = await new Client(app).made<{ token: string }>('/v1/sessions', body)
    owner = new Client(app, token)
  })
  afterAll(async () => {
    await app.close()
    await test.end()
  })

  it('holds no sentence of the English catalogue', async () => {
    const found = new Set<string>()
    const answered = new Set<string>()
    const seen = new Set<string>()
    for (const path of await paths(test)) {
      const { status, text, type } = await owner.get(path).set('accept-language', 'es')
      if (status !== 200) continue
      answered.add(path.split('?')[0]!.replaceAll(/[0-9a-f-]{36}/g, ':id'))
      if (type !== 'application/json') continue
      for (const [where, each] of textsOf(JSON.parse(text))) {
        // Instants, ids and codes again and again; and what was looked at once.
        if (/^[\d-]/.test(each) || seen.has(each)) continue
        seen.add(each)
        for (const { code, looks } of ENGLISH)
          if (looks.test(each)) found.add(`${path} ${where}: "${each}" says ${code}`)
      }
    }
    // As many as the demo has something of: fewer, and this would look at nothing.
    expect(answered.size).toBeGreaterThan(60)
    expect([...found]).toEqual([])
  }, 240_000)
})

function sentences(): readonly { readonly code: string; readonly looks: RegExp }[] {
  const flat = (areas: Readonly<Record<string, Readonly<Record<string, string>>>>) =>
    Object.assign({}, ...Object.values(areas)) as Record<string, string>
  const spanish = flat({ ...es, ...esService })
  return Object.entries(flat({ ...en, ...enService }))
    .filter(([code, pattern]) => pattern !== spanish[code] && !/[{<][^{}]*[,<]/.test(pattern))
    .filter(([, pattern]) => /[A-Za-z]{3}/.test(pattern.replaceAll(/\{\w+\}/g, '')))
    .map(([code, pattern]) => ({ code, looks: looking(pattern) }))
}

function looking(pattern: string): RegExp {
  const literal = pattern.split(/\{\w+\}/).map((each) => each.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&'))
  return new RegExp(`^${literal.join('.+')}$`)
}

/** What the demo's people have named in English; and what a record holds as it was written down then. */
const TYPED = new Set(['name', 'jointName', 'jointNames', 'resourceName', 'shopName', 'facts', 'said'])

function* textsOf(value: unknown, where = ''): Generator<readonly [where: string, text: string]> {
  // Codes begin with a small letter, sentences with a capital.
  if (typeof value === 'string' && !/^[a-z]\w*$/.test(value)) yield [where, value]
  else if (typeof value === 'object' && value !== null)
    for (const [name, each] of Object.entries(value))
      if (!TYPED.has(name)) yield* textsOf(each, `${where}.${name}`)
}

/** Every address that reads something, of a few things of each kind. */
async function paths({ database: { prisma } }: TestDatabase): Promise<string[]> {
  const some = { take: 3, select: { id: true } } as const
  const ids: Readonly<Record<string, readonly { readonly id: string }[]>> = {
    shopId: await prisma.shop.findMany(some),
    productId: await prisma.product.findMany(some),
    cartridgeId: await prisma.cartridge.findMany({ ...some, orderBy: { expiresAt: 'asc' } }),
    lotId: await prisma.lot.findMany({ ...some, orderBy: { holdReason: 'asc' } }),
    shipmentId: await prisma.shipment.findMany(some),
    countId: await prisma.stockCount.findMany(some),
    orderId: await prisma.purchaseOrder.findMany(some),
    sensorId: await prisma.sensor.findMany(some),
    repairOrderId: await prisma.repairOrder.findMany(some),
    bondId: await prisma.bond.findMany({ ...some, take: 12 }),
    planId: await prisma.plan.findMany(some),
  }
  const span = `from=${new Date(NOON.getTime() - 86_400_000).toISOString()}&to=${new Date(NOON.getTime() + 5 * 86_400_000).toISOString()}`
  const contracts: readonly RouteContract[] = Object.values(ROUTES)
  return contracts
    .filter(({ method }) => method === 'GET')
    .flatMap(({ path }) => {
      const name = /[:{](\w+Id)/.exec(path)?.[1]
      const all =
        name === undefined ? [path] : (ids[name] ?? []).map(({ id }) => path.replace(/[:{]\w+Id\}?/, id))
      return all.flatMap((each) =>
        /bookings|planFigures|resourceTime/.test(each)
          ? ids['shopId']!.map(({ id }) => `${each}?shopId=${id}&${span}`)
          : [each],
      )
    })
    .filter((path) => !/[:{]\w+/.test(path))
}
