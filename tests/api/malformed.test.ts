import { ROUTES, type RouteContract } from '@clampclock/contracts'
import supertest from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as z from 'zod'
import { makeJoint, makeShop, receive } from '../support/fixtures.ts'
import { PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

const contracts: readonly RouteContract[] = Object.values(ROUTES)
const named = (list: readonly RouteContract[]) =>
  list.map((contract) => [contract.operationId, contract] as const)

/** Values that no field takes, or that break something further down when one does. */
const HOSTILE: readonly unknown[] = [
  null,
  true,
  -1,
  1e308,
  0.1,
  '',
  ' ',
  'x'.repeat(5000),
  '\u0000',
  '\ud800',
  '2031-02-30',
  '2031-13-45T99:99:99Z',
  '0001-01-01T00:00:00Z',
  '+275760-09-13T00:00:00.001Z',
  "'; drop table shop; --",
  '../../etc/passwd',
  [],
  [[]],
  {},
  { min: 5, max: 1 },
  Number.MAX_SAFE_INTEGER,
  '00000000-0000-4000-8000-000000000000',
]

interface Refused {
  readonly said: { readonly title?: { code: string }; readonly detail?: { code: string } }
  readonly reasons: readonly { readonly said?: { readonly message?: { code: string } } }[]
}

describe('a request that is not as it should be', () => {
  let test: TestApp
  let token: string
  const ids: Record<string, string> = {}
  beforeAll(async () => {
    test = await startTestApp('embedded')
    const shop = await makeShop(test.owner)
    const [piece] = await receive(test.owner, shop)
    const { orderId, jointId } = await makeJoint(test.owner, shop)
    const lots = await test.owner.read<{ items: { id: string }[] }>('/v1/lots')
    const booking = await test.owner.made('/v1/bookings', {
      resourceId: shop.bayId,
      repairOrderId: orderId,
      startsAt: '2031-05-08T08:00:00Z',
      endsAt: '2031-05-08T09:00:00Z',
    })
    Object.assign(ids, {
      shopId: shop.shopId,
      resourceId: shop.bayId,
      productId: shop.productId,
      sensorId: shop.sensorId,
      cartridgeId: piece!.id,
      repairOrderId: orderId,
      jointId,
      lotId: lots.items[0]!.id,
      bookingId: booking.id,
      key: 'doorSkin',
      operationId: '00000000-0000-4000-8000-000000000000',
    })
    token = (
      await test.anybody.made<{ token: string }>('/v1/sessions', {
        email: 'owner@test.example',
        password: PASSWORD,
      })
    ).token
  })
  afterAll(() => test.end())

  const path = (
    contract: RouteContract,
    change: (name: string) => string = (name) => ids[name] ?? '00000000-0000-4000-8000-000000000000',
  ) => contract.path.replace(/:(\w+)/g, (_, name: string) => change(name))
  const send = (contract: RouteContract, url = path(contract)) => {
    const agent = supertest(test.app.server)
    const method = contract.method.toLowerCase() as 'get' | 'post' | 'put' | 'patch' | 'delete'
    const request = agent[method](url).set('authorization', `Bearer ${token}`)
    return contract.ifMatch ? request.set('if-match', '"1"') : request
  }
  const expectProblem = (response: supertest.Response, statuses: readonly number[], what: string) => {
    expect(statuses, `${what}: ${response.status} ${JSON.stringify(response.body)}`).toContain(
      response.status,
    )
    expect(response.headers['content-type']).toContain('application/problem+json')
    expect(response.body.type).toMatch(/^\/problems\/[a-z-]+$/)
    // Nothing is refused in words that another reader would not be told in his own.
    const { said, reasons } = response.body as Refused
    for (const each of [said.title, said.detail, ...reasons.map((reason) => reason.said?.message)])
      expect([what, each?.code], JSON.stringify(response.body)).not.toContain(undefined)
    expect(JSON.stringify(reasons), what).not.toContain('problem.asTold')
  }

  it.each(named(contracts.filter(({ body }) => body)))(
    '%s: bad JSON, wrong media type, no body',
    async (_name, contract) => {
      expectProblem(await send(contract).type('json').send('{"half": '), [400], 'bad JSON')
      expectProblem(await send(contract).type('text/plain').send('hello'), [415], 'text')
      expectProblem(await send(contract).type('json').send('[1, 2]'), [422], 'a list')
      expectProblem(await send(contract).type('json').send('"text"'), [422], 'a text')
    },
  )

  it('refuses what is too large before reading it all', async () => {
    const contract = ROUTES.addTemperatureReadings
    expectProblem(
      await send(contract)
        .type('json')
        .send(`{"readings": "${'x'.repeat(1_100_000)}"}`),
      [413],
      'large',
    )
    const many = {
      readings: Array.from({ length: 1001 }, () => ({ at: '2031-05-07T12:00:00Z', temperatureC: 20 })),
    }
    expect((await send(contract).send(many)).body.reasons[0].field).toBe('body.readings')
  })

  it.each(named(contracts.filter(({ params }) => params)))(
    '%s: an id that is none',
    async (_name, contract) => {
      for (const id of ['nonsense', '%00', '1', "';--"]) {
        const response = await send(
          contract,
          path(contract, () => id),
        ).send(contract.body ? {} : undefined)
        expectProblem(response, [400, 422], id)
      }
    },
  )

  it.each(named(contracts.filter(({ query }) => query)))(
    '%s: a query that is off',
    async (_name, contract) => {
      const names = Object.keys(contract.query!.shape)
      for (const name of names) {
        for (const value of ['%00', 'x'.repeat(300), '-1', '9999999999999999999', '2031-02-30T00:00:00Z']) {
          const { status, body } = await send(contract, `${path(contract)}?${name}=${value}`)
          expect(status, `${name}=${value}: ${JSON.stringify(body)}`).toBeLessThan(500)
        }
      }
      const unknown = await send(contract, `${path(contract)}?surprise=1`)
      expectProblem(unknown, [422], 'unknown name')
    },
  )

  const withBody = named(contracts.filter(({ body, access }) => body && access !== 'public'))
  /** Field after field takes the next `most` of the values, so that each field has some and each value is somewhere. */
  const expectNoFault = async (contract: RouteContract, most: number) => {
    const schema = z.toJSONSchema(contract.body!, { io: 'input', unrepresentable: 'any' }) as {
      properties?: Record<string, unknown>
    }
    for (const [i, field] of [...Object.keys(schema.properties ?? {}), 'surprise'].entries()) {
      for (let j = 0; j < most; j += 1) {
        const value = HOSTILE[(i * most + j) % HOSTILE.length]
        const response = await send(contract).send({ [field]: value })
        expect(
          response.status,
          `${field} = ${JSON.stringify(value)?.slice(0, 60)}: ${JSON.stringify(response.body).slice(0, 400)}`,
        ).toBeLessThan(500)
        if (response.status < 400) continue
        expectProblem(response, [400, 404, 409, 412, 413, 422], field)
        if (response.status === 422)
          expect(response.body.reasons[0]?.field, JSON.stringify(response.body)).toMatch(/^body/)
      }
    }
  }

  it.each(withBody)(
    '%s: every field with hostile values in turn, each named, none a fault of ours',
    (_name, contract) => expectNoFault(contract, 6),
  )
  it.for(withBody)(
    '%s: every field with every hostile value, each named, none a fault of ours',
    { tags: ['long'] },
    ([, contract]) => expectNoFault(contract, HOSTILE.length),
  )

  it.each(named(contracts.filter(({ body, access }) => body && access !== 'public')))(
    '%s: every field with the same hostile value at once: rules over two fields run too',
    async (_name, contract) => {
      const schema = z.toJSONSchema(contract.body!, { io: 'input', unrepresentable: 'any' }) as {
        properties?: Record<string, unknown>
      }
      const fields = Object.keys(schema.properties ?? {})
      for (const value of HOSTILE) {
        const response = await send(contract).send(Object.fromEntries(fields.map((field) => [field, value])))
        expect(
          response.status,
          `${JSON.stringify(value)?.slice(0, 60)}: ${JSON.stringify(response.body).slice(0, 400)}`,
        ).toBeLessThan(500)
      }
    },
  )

  it('names a missing and a malformed If-Match', async () => {
    const agent = supertest(test.app.server)
      .patch(`/v1/shops/${ids['shopId']}`)
      .set('authorization', `Bearer ${token}`)
    expectProblem(await agent.send({ name: 'New' }), [428], 'missing')
    const bad = await supertest(test.app.server)
      .patch(`/v1/shops/${ids['shopId']}`)
      .set('authorization', `Bearer ${token}`)
      .set('if-match', 'W/"1"')
      .send({ name: 'New' })
    expect(bad.body.reasons[0].field).toBe('headers.if-match')
  })

  it('answers an address that is not there as a problem too', async () => {
    expectProblem(await supertest(test.app.server).get('/v1/nothing/here'), [404], 'address')
    expectProblem(await supertest(test.app.server).get('/%E0%A4%A'), [400, 404], 'bad escape')
  })
})
