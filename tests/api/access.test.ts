import cookie from '@fastify/cookie'
import { ROUTES, type RouteContract } from '@clampclock/contracts'
import fastify from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { authenticate } from '../../apps/api/src/foundation/access/authenticate.ts'
import { makeJoint, makeShop, receive, type Shop } from '../support/fixtures.ts'
import { Client, NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

const NOWHERE = '00000000-0000-4000-8000-000000000000'
const contracts: readonly RouteContract[] = Object.values(ROUTES)
const pathOf = ({ path }: RouteContract, id = NOWHERE) => path.replace(/:\w+/g, id)

describe('access', () => {
  let test: TestApp
  let here: Shop
  let elsewhere: Shop
  const clients = new Map<string, Client>()
  beforeAll(async () => {
    test = await startTestApp('embedded')
    here = await makeShop(test.owner)
    elsewhere = await makeShop(test.owner)
    for (const role of ['partsManager', 'scheduler', 'technician', 'viewer']) {
      const email = `${role.toLowerCase()}@test.example`
      await test.owner.made('/v1/people', {
        name: role,
        email,
        password: PASSWORD,
        memberships: [{ shopId: here.shopId, role }],
      })
      clients.set(role, await test.signIn(email))
    }
    for (const scope of ['sensor', 'integration']) {
      const { secret } = await test.owner.made<{ secret: string }>('/v1/accessTokens', {
        name: scope,
        scope,
        shopId: here.shopId,
      })
      clients.set(scope, new Client(test.app, secret))
    }
    clients.set('owner', test.owner)
  })
  afterAll(() => test.end())
  const as = (holder: string) => clients.get(holder)!
  const send = (client: Client, contract: RouteContract) => {
    const path = pathOf(contract)
    if (contract.method === 'GET') return client.get(path)
    if (contract.method === 'DELETE') return client.delete(path)
    if (contract.method === 'PUT') return client.put(path, {})
    return contract.method === 'PATCH' ? client.patch(path, {}, 1) : client.post(path)
  }

  it.each(
    contracts
      .filter(({ access }) => access !== 'public')
      .map((contract) => [contract.operationId, contract] as const),
  )('%s is closed to who has not signed in', async (_name, contract) => {
    const response = await send(test.anybody, contract)
    expect(response.status).toBe(401)
    expect(response.body.type).toBe('/problems/not-signed-in')
  })

  it('does not start with a route that forgot to say who may call it', async () => {
    const app = fastify()
    await app.register(cookie)
    await app.register(authenticate)
    expect(() => app.get('/v1/forgotten', () => 'hello')).toThrow(
      '/v1/forgotten does not say who may call it',
    )
    expect((await test.anybody.get('/v1/events')).status).toBe(401)
  })

  it('hides another shop from who has no role there', async () => {
    const [piece] = await receive(test.owner, elsewhere)
    const { orderId } = await makeJoint(test.owner, elsewhere)
    for (const role of ['partsManager', 'scheduler', 'technician', 'viewer']) {
      expect((await as(role).get(`/v1/cartridges/${piece!.id}`)).status).toBe(404)
      expect((await as(role).get(`/v1/repairOrders/${orderId}`)).status).toBe(404)
      expect((await as(role).get(`/v1/cartridges?shopId=${elsewhere.shopId}`)).status).toBe(404)
      expect((await as(role).get(`/v1/shops/${elsewhere.shopId}/bayBoard`)).status).toBe(404)
      const { items } = await as(role).read<{ items: { id: string }[] }>('/v1/shops')
      expect(items.map(({ id }) => id)).toEqual([here.shopId])
      const stock = await as(role).read<{ items: { shopId: string }[] }>('/v1/cartridges')
      expect(stock.items.every(({ shopId }) => shopId === here.shopId)).toBe(true)
      const overview = await as(role).read<{ shops: object[] }>('/v1/overview')
      expect(overview.shops).toHaveLength(1)
    }
    expect(
      (
        await as('partsManager').post(`/v1/cartridges/${piece!.id}/discard`, {
          reason: 'Not mine to throw away',
        })
      ).status,
    ).toBe(404)
    expect(
      (
        await as('sensor').post(`/v1/sensors/${elsewhere.sensorId}/readings`, {
          readings: [{ at: NOON.toISOString(), temperatureC: 20 }],
        })
      ).status,
    ).toBe(403)
  })

  it('lets a sensor send and nothing else', async () => {
    const sent = await as('sensor').post(`/v1/sensors/${here.sensorId}/readings`, {
      readings: [{ at: NOON.toISOString(), temperatureC: 20 }],
    })
    expect(sent.status).toBe(201)
    expect((await as('sensor').get('/v1/cartridges')).status).toBe(403)
  })

  it('shuts out a revoked token, a person who left, and an old password, at once', async () => {
    const { id, secret } = await test.owner.made<{ id: string; secret: string }>('/v1/accessTokens', {
      name: 'Soon gone',
      scope: 'integration',
    })
    const token = new Client(test.app, secret)
    expect((await token.get('/v1/shops')).status).toBe(200)
    await test.owner.delete(`/v1/accessTokens/${id}`)
    expect((await token.get('/v1/shops')).status).toBe(401)

    const leaver = await test.owner.made('/v1/people', {
      name: 'Leaver',
      email: 'leaver@test.example',
      password: PASSWORD,
      memberships: [{ shopId: null, role: 'viewer' }],
    })
    const session = await test.signIn('leaver@test.example')
    await test.owner.patch(`/v1/people/${leaver.id}`, { password: 'quite another password' }, 1)
    expect((await session.get('/v1/me')).status).toBe(401)
    await test.owner.patch(`/v1/people/${leaver.id}`, { password: PASSWORD, disabled: true }, 1)
    expect(
      (await test.anybody.post('/v1/sessions', { email: 'leaver@test.example', password: PASSWORD })).status,
    ).toBe(401)
  })

  it('never leaves the chain without an owner', async () => {
    const me = await test.owner.read<{ id: string }>('/v1/me')
    const response = await test.owner.patch(`/v1/people/${me.id}`, { disabled: true }, 1)
    expect(response.body.type).toBe('/problems/wrong-state')
    expect((await test.owner.get('/v1/me')).status).toBe(200)
  })

  it('says the same of an unknown address and of a wrong password, and keeps the setup closed', async () => {
    const unknown = await test.anybody.post('/v1/sessions', {
      email: 'nobody@test.example',
      password: PASSWORD,
    })
    const wrong = await test.anybody.post('/v1/sessions', {
      email: 'owner@test.example',
      password: 'not this one at all',
    })
    expect(unknown.body).toEqual(wrong.body)
    const again = await test.anybody.post('/v1/setup', {
      setupCode: 'guess',
      organizationName: 'X',
      name: 'X',
      email: 'x@test.example',
      password: PASSWORD,
    })
    expect(again.status).toBe(401)
  })

  it('signs in with a cookie that scripts cannot read, and out again', async () => {
    const response = await test.anybody.post('/v1/sessions', {
      email: 'owner@test.example',
      password: PASSWORD,
    })
    const [cookie = ''] = response.headers['set-cookie'] as unknown as string[]
    expect(cookie).toMatch(/^clampclock_session=cc_session_[\w-]+;.*HttpOnly.*SameSite=Strict/)
    const pair = cookie.split(';', 1)[0]!
    expect((await test.anybody.get('/v1/me').set('cookie', pair)).body).toMatchObject({ name: 'Owner' })
    const out = await test.anybody.delete('/v1/sessions/current').set('cookie', pair)
    expect(out.status).toBe(204)
    expect((await test.anybody.get('/v1/me').set('cookie', pair)).status).toBe(401)
  })
})
