import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { NOON, PASSWORD, startTestApp, type TestApp } from '../support/test-app.ts'

describe.each(ONE_KIND)('what another site makes a browser send, on the %s database', (kind) => {
  let test: TestApp
  let cookie: string
  let host: string
  const credentials = { email: 'owner@test.example', password: PASSWORD }
  const shop = () => ({
    name: `Shop ${Math.random()}`,
    timeZone: 'America/New_York',
    temperatureUnit: 'C',
  })
  beforeAll(async () => {
    test = await startTestApp(kind, NOON, { publicUrl: 'https://stock.example' })
    const { headers, request } = await test.anybody.post('/v1/sessions', credentials)
    cookie = (headers['set-cookie'] as unknown as string[])[0]!.split(';', 1)[0]!
    host = new URL(request.url as string).host
  })
  afterAll(() => test.end())

  const foreign = [
    { origin: 'https://elsewhere.example' },
    { origin: 'null' },
    { origin: 'http://127.0.0.1:1' },
    { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
    // The Origin that it should have, but not by the browser's own word.
    { origin: 'https://stock.example', 'sec-fetch-site': 'cross-site' },
  ]

  it.each(foreign)('with %j does nothing, however good its cookie is', async (headers) => {
    const before = await test.owner.read<{ items: object[] }>('/v1/shops')
    const answer = await test.anybody.post('/v1/shops', shop()).set({ ...headers, cookie })
    expect(answer.status).toBe(403)
    expect(answer.body.type).toBe('/problems/foreign-origin')
    expect(await test.owner.read('/v1/shops')).toEqual(before)
    expect((await test.anybody.delete('/v1/me/sessions').set({ ...headers, cookie })).status).toBe(403)
    expect((await test.anybody.get('/v1/me').set({ ...headers, cookie })).status).toBe(200)
  })

  it('signs nobody in', async () => {
    const answer = await test.anybody
      .post('/v1/sessions', credentials)
      .set('origin', 'https://elsewhere.example')
    expect(answer.status).toBe(403)
    expect(answer.headers['set-cookie']).toBeUndefined()
  })

  it('is not what the own pages and other programs send', async () => {
    const own = [
      { origin: `http://${host}` },
      { origin: 'https://stock.example' },
      { 'sec-fetch-site': 'same-origin' },
      // Through a proxy that gives the service another host's name.
      { origin: 'https://behind.example', 'sec-fetch-site': 'same-origin' },
      {},
    ]
    for (const headers of own) {
      const answer = await test.anybody.post('/v1/shops', shop()).set({ ...headers, cookie })
      expect([headers, answer.status]).toEqual([headers, 201])
    }
    const bearer = await test.owner.post('/v1/shops', shop()).set('origin', 'https://elsewhere.example')
    expect(bearer.status).toBe(201)
  })
})
