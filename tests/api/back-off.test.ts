import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { beginAttempt } from '../../apps/api/src/foundation/access/back-off.ts'
import { buildApp } from '../../apps/api/src/app.ts'
import { KINDS } from '../support/databases.ts'
import { CONFIG, NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'
import supertest from 'supertest'

const OWNER = 'owner@test.example'
const WRONG = 'not the password of anybody'
/** As the proxy in front of the service names the caller; what stands to the left of it, the caller wrote. */
const from = (address: string, forged = '') => (forged ? `${forged}, ${address}` : address)

describe.each(KINDS)('back-off at sign-in, on the %s database', (kind) => {
  let test: TestApp
  beforeEach(async () => {
    test = await startTestApp(kind, NOON, { trustProxy: 1 })
  })
  afterEach(() => test.end())

  const attempt = (email: string, password: string, forwarded: string, path = '/v1/sessions') =>
    test.anybody.post(path, { email, password }).set('x-forwarded-for', forwarded)
  const fail = async (email: string, forwarded: string, times: number) => {
    const statuses: number[] = []
    for (let time = 0; time < times; time += 1) statuses.push((await attempt(email, WRONG, forwarded)).status)
    return statuses
  }
  const later = (seconds: number) => {
    test.clock.now = new Date(test.clock.now.getTime() + seconds * 1000)
  }

  it('holds an account after five wrong passwords, twice as long with each further one, and says for how long', async () => {
    expect(await fail(OWNER, from('127.0.0.9'), 6)).toEqual([401, 401, 401, 401, 401, 429])
    const held = await attempt(OWNER, PASSWORD, from('127.0.0.9'))
    expect(held.status).toBe(429)
    expect(held.body).toMatchObject({ type: '/problems/too-many-requests' })
    expect(held.headers['retry-after']).toBe('1')
    later(1)
    expect((await attempt(OWNER, WRONG, from('127.0.0.9'))).status).toBe(401)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.9'))).headers['retry-after']).toBe('2')
    later(2)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.9'))).status).toBe(201)
    expect(await fail(OWNER, from('127.0.0.9'), 1)).toEqual([401])
  })

  it('shuts nobody out by a clock that was set back', async () => {
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.9'))).status).toBe(201)
    await fail(OWNER, from('127.0.0.10'), 8)
    later(-300)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.9'))).status).toBe(201)
    later(-7 * 86_400)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.10'))).status).toBe(201)
  })

  it('answers the same of an address that nobody has', async () => {
    expect(await fail('nobody@test.example', from('127.0.0.9'), 6)).toEqual([401, 401, 401, 401, 401, 429])
  })

  it('goes by the matched route, however its path is spelt', async () => {
    const spellings = [
      '/v1/sessions',
      '/v1/%73essions',
      '/%761/sessions',
      '/v1/sess%69ons',
      '/%76%31/%73essions',
    ]
    for (const path of spellings)
      expect((await attempt(OWNER, WRONG, from('127.0.0.9'), path)).status, path).toBe(401)
    for (const path of spellings)
      expect((await attempt(OWNER, PASSWORD, from('127.0.0.9'), path)).status, path).toBe(429)
  })

  it('takes the address from the proxy that it trusts, and nothing that the caller wrote before it', async () => {
    for (let time = 0; time < 5; time += 1)
      expect((await attempt(OWNER, WRONG, from('127.0.0.9', `127.7.0.${time}`))).status).toBe(401)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.9', '127.7.0.99'))).status).toBe(429)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.8', '127.7.0.1'))).status).toBe(201)
  })

  it('tries no more passwords by asking for all of them at once', async () => {
    const statuses = await Promise.all(
      Array.from({ length: 19 }, async () => (await attempt(OWNER, WRONG, from('127.0.0.9'))).status),
    )
    expect(statuses.filter((status) => status === 401)).toHaveLength(5)
    expect(statuses.filter((status) => status === 429)).toHaveLength(14)
  })

  it('holds an account that is tried from many addresses, but not where its owner is known', async () => {
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.1'))).status).toBe(201)
    for (let address = 10; address < 15; address += 1)
      expect(await fail(OWNER, from(`127.0.1.${address}`), 4)).toEqual([401, 401, 401, 401])
    expect((await attempt(OWNER, PASSWORD, from('127.0.2.1'))).status).toBe(429)
    expect((await attempt(OWNER, PASSWORD, from('127.0.0.1'))).status).toBe(201)
  })

  it('holds an address that tries many accounts, and counts one IPv6 network as one', async () => {
    const begin = (account: string, address: string) =>
      beginAttempt(test.database, { account, address }, test.clock.now)
    for (let person = 0; person < 50; person += 1)
      await begin(`p${person}@test.example`, `2001:db8::${person}`)
    await expect(begin(OWNER, '2001:db8::ffff')).rejects.toMatchObject({ code: 'too-many-requests' })
    const attempt = await begin(OWNER, '2001:db8:0:1::1')
    await attempt.succeeded()
  })

  it('is known to every process of the service, and forgotten a day later', async () => {
    await fail(OWNER, from('127.0.0.9'), 5)
    const second = await buildApp({
      config: { ...CONFIG, trustProxy: 1 },
      database: test.database,
      clock: () => test.clock.now,
    })
    await second.ready()
    const there = () =>
      supertest(second.server)
        .post('/v1/sessions')
        .set('x-forwarded-for', '127.0.0.9')
        .send({ email: OWNER, password: WRONG })
    expect((await there()).status).toBe(429)
    later(86_401)
    expect((await there()).status).toBe(401)
    expect((await there()).status).toBe(401)
    await second.close()
  })
})

it('believes no X-Forwarded-For unless it is told of a proxy', async () => {
  const test = await startTestApp('server')
  for (let time = 0; time < 5; time += 1)
    await test.anybody
      .post('/v1/sessions', { email: OWNER, password: WRONG })
      .set('x-forwarded-for', `127.7.0.${time}`)
  const held = await test.anybody
    .post('/v1/sessions', { email: OWNER, password: PASSWORD })
    .set('x-forwarded-for', '127.7.0.99')
  expect(held.status).toBe(429)
  await test.end()
})

it('counts a path that no route has, and one that is spelt otherwise, against the same limit', async () => {
  const test = await startTestApp('server', NOON, {}, 4)
  const statuses: number[] = []
  for (const path of ['/v1/shops', '/%761/shops', '/v1/%73hops', '/%761/nothing', '/v1/shops', '/%761/shops'])
    statuses.push((await test.anybody.get(path)).status)
  // Four are free, whatever they were answered, and whoever they came from.
  expect(statuses).toEqual([401, 401, 401, 404, 429, 429])
  await test.end()
})
