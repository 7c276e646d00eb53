import { readFile } from 'node:fs/promises'
import {
  PERMISSIONS,
  Role,
  ROUTES,
  TokenScope,
  type Permission,
  type RouteContract,
} from '@clampclock/contracts'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeShop, PHOTO, type Shop } from '../support/fixtures.ts'
import { oneOfEach } from '../support/one-of-each.ts'
import { sampleOf, type Samples } from '../support/sample-body.ts'
import { Client, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

const NOWHERE = '00000000-0000-4000-8000-000000000000'
const contracts: readonly RouteContract[] = Object.values(ROUTES)
const guarded = contracts.filter(({ access }) => access !== 'public' && access !== 'signedIn')
const HOLDERS = [...Role.options, ...TokenScope.options]
/** Where a role or scope is held. */
const SCOPES = ['one shop', 'every shop'] as const

/** What belongs to the whole chain: who sees one shop sees it. What it tells of other shops is cut away. */
const OF_THE_CHAIN = new Set([
  'getProduct',
  'listProductGtins',
  'getSheetDocument',
  'getLot',
  'getLotStorage',
  'getLotRecall',
  'getLotRecallCsv',
  'getLotEvents',
  'getLotLifeCsv',
  'planTransfers',
])

/** Fields whose schema alone doesn't say what is valid; under '' more fields of the whole. */
const SAMPLES: Samples = {
  email: 'somebody@test.example',
  password: PASSWORD,
  endsAt: '2031-05-08T10:00:00Z',
  timeZone: 'America/New_York',
  temperatureUnit: 'C',
  template: 'doorSkin',
  place: 'bay',
  afterId: null,
  from: '07:00',
  until: '08:00',
}
const STEP = {
  kind: 'prepare',
  name: 'Grind',
  place: 'bay',
  workMinutes: 30,
  technicians: 1,
  skill: null,
  clampSets: 0,
  attributes: [],
  highestMetalC: null,
  bakeProgram: null,
}
const SAMPLES_OF: Readonly<Record<string, Samples>> = {
  editPerson: { '': { name: 'Another name' } },
  addInstrument: { kind: 'hygrometer', '': { accuracyPercent: 3 } },
  addSensor: { '': { resourceId: NOWHERE } },
  setRepairTemplate: { steps: [STEP] },
  addOperation: { ...STEP, kind: 'refit', '': { jointId: null } },
  addAbsence: { from: '2031-05-08T08:00:00Z', until: '2031-05-09T08:00:00Z' },
  correctSensorReadings: {
    kind: 'withdrawn',
    from: '2031-05-07T08:00:00Z',
    until: '2031-05-07T09:00:00Z',
  },
  snoozeAlert: { until: '2031-05-08T08:00:00Z' },
  addPhoto: { base64: PHOTO.base64 },
  getResourceTime: { from: '2031-05-08T08:00:00Z', to: '2031-05-09T08:00:00Z' },
}

describe('every route, for every role and scope, in one shop and in all', () => {
  let test: TestApp
  let here: Shop
  let elsewhere: Shop
  /** Of things in the other shop, by the name that paths and bodies have for them. */
  const there: Record<string, string> = {}
  const clients = new Map<string, Client>()
  const as = (holder: string, scope: (typeof SCOPES)[number]) => clients.get(`${holder} of ${scope}`)!

  beforeAll(async () => {
    test = await startTestApp('embedded')
    here = await makeShop(test.owner)
    elsewhere = await makeShop(test.owner)
    for (const scope of SCOPES) {
      const shopId = scope === 'one shop' ? here.shopId : null
      for (const role of Role.options) {
        const email = `${role.toLowerCase()}-${scope === 'one shop' ? 'one' : 'all'}@test.example`
        const name = `${role} of ${scope}`
        await test.owner.made('/v1/people', {
          name,
          email,
          password: PASSWORD,
          memberships: [{ shopId, role }],
        })
        clients.set(name, await test.signIn(email))
      }
      for (const token of TokenScope.options) {
        const name = `${token} of ${scope}`
        const { secret } = await test.owner.made<{ secret: string }>('/v1/accessTokens', {
          name,
          scope: token,
          shopId,
        })
        clients.set(name, new Client(test.app, secret))
      }
    }
    Object.assign(there, await oneOfEach(test, elsewhere, here))
  })
  afterAll(() => test.end())

  const send = (client: Client, contract: RouteContract, path: string, body: object = {}) => {
    if (contract.method === 'GET') return client.get(path)
    if (contract.method === 'DELETE') return client.delete(path)
    if (contract.method === 'PUT') return client.put(path, body, contract.ifMatch ? 1 : undefined)
    return contract.method === 'PATCH' ? client.patch(path, body, 1) : client.post(path, body)
  }
  const pathTo = ({ path }: RouteContract, idOf: (name: string) => string) =>
    path.replace(/:(\w+)/g, (_, name: string) => idOf(name))

  it.each(guarded.map((contract) => [contract.operationId, contract] as const))(
    '%s is open to who holds its permission where it counts, and to nobody else',
    async (operationId, contract) => {
      const holders = PERMISSIONS[contract.access as Permission] as readonly string[]
      for (const scope of SCOPES) {
        for (const holder of HOLDERS) {
          const { status } = await send(
            as(holder, scope),
            contract,
            pathTo(contract, () => NOWHERE),
          )
          const isOpen = holders.includes(holder) && (contract.reach !== 'chain' || scope === 'every shop')
          expect([operationId, holder, scope, status !== 403]).toEqual([operationId, holder, scope, isOpen])
        }
      }
    },
  )

  const reaching = guarded.filter(
    ({ reach, method, params, operationId, body }) =>
      reach !== 'chain' && !OF_THE_CHAIN.has(operationId) && (params ?? (method !== 'GET' && body)),
  )

  it.each(reaching.map((contract) => [contract.operationId, contract] as const))(
    "%s does nothing to another shop's things, whatever one is in one's own",
    async (operationId, contract) => {
      const idOf = (name: string) => {
        expect(there, `Give the test a ${name} of the other shop`).toHaveProperty(name)
        return there[name]!
      }
      const path = pathTo(contract, idOf)
      const samples = { ...SAMPLES, ...SAMPLES_OF[operationId] }
      const body = sampleOf(contract.body, idOf, samples)
      const asked = Object.entries(sampleOf(contract.query, idOf, contract.body ? SAMPLES : samples))
      const query = new URLSearchParams(
        asked.map(([name, value]): [string, string] => [name, String(value)]),
      ).toString()
      for (const holder of HOLDERS) {
        const answer = await send(as(holder, 'one shop'), contract, query ? `${path}?${query}` : path, body)
        expect(
          [403, 404],
          `${holder}: ${answer.status} ${JSON.stringify(answer.body).slice(0, 500)}`,
        ).toContain(answer.status)
      }
    },
  )
})

describe('docs/access.md', () => {
  const rows = async (heading: string) => {
    const page = await readFile(new URL('../../docs/access.md', import.meta.url), 'utf8')
    const section = page.split(`## ${heading}`)[1]!.split('\n## ')[0]!
    const cells = [...section.matchAll(/^\| (.*) \|$/gm)].map(([, row]) => row!.split(' | '))
    return cells.slice(2)
  }
  const named = (cell: string) => cell.split(', ').map((name) => name.replaceAll('`', ''))

  it('says who has which permission as the code does', async () => {
    const told = (await rows('Roles and tokens')).map(([name, , who]) => [named(name!)[0], named(who!)])
    expect(Object.fromEntries(told)).toEqual(PERMISSIONS)
  })

  it('names each act that counts for the whole chain', async () => {
    const told = (await rows('What counts for the whole chain')).flatMap(([acts, permission]) =>
      named(acts!).map((act) => [act, named(permission!)[0]]),
    )
    const real = contracts.filter(({ reach }) => reach === 'chain')
    expect(Object.fromEntries(told)).toEqual(
      Object.fromEntries(real.map(({ operationId, access }) => [operationId, access])),
    )
  })
})
