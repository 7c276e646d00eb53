import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const NONE = { language: null, temperature: null, volume: null, length: null, clock: null, firstDay: null }
const MINE = { language: 'es', temperature: 'F', volume: 'flOz', length: 'in', clock: '12h', firstDay: 7 }
const PATH = '/v1/me/preferences'

describe('how a person reads', () => {
  let test: TestApp
  let other: Client
  const preferencesOf = async (client: Client) =>
    (await client.read<{ preferences: object }>('/v1/me')).preferences

  beforeAll(async () => {
    test = await startTestApp('embedded')
    const person = { name: 'Vi', email: 'vi@preferences.test.example', password: PASSWORD }
    await test.owner.made('/v1/people', { ...person, memberships: [{ shopId: null, role: 'viewer' }] })
    const { token } = await test.owner.made<{ token: string }>('/v1/sessions', {
      email: person.email,
      password: PASSWORD,
    })
    other = test.owner.as(token)
  })
  afterAll(() => test.end())

  it('is as the browser says until somebody says otherwise, and then stays with that person alone', async () => {
    expect(await preferencesOf(other)).toEqual(NONE)
    const answer = await other.put(PATH, MINE)
    expect([answer.status, answer.body]).toEqual([200, MINE])
    expect(await preferencesOf(other)).toEqual(MINE)
    expect(await preferencesOf(test.owner)).toEqual(NONE)
    // It comes with the next sign-in too, on whatever device.
    const { me } = await test.owner.made<{ me: { preferences: object } }>('/v1/sessions', {
      email: 'vi@preferences.test.example',
      password: PASSWORD,
    })
    expect(me.preferences).toEqual(MINE)
    expect((await other.put(PATH, { ...MINE, clock: null })).body).toEqual({ ...MINE, clock: null })
    expect((await other.put(PATH, NONE)).body).toEqual(NONE)
    expect(await preferencesOf(other)).toEqual(NONE)
  })

  it.each([
    ['language', 'de'],
    ['temperature', 'K'],
    ['volume', 'L'],
    ['length', 'cm'],
    ['clock', '36h'],
    ['firstDay', 0],
    ['firstDay', 8],
    ['firstDay', 1.5],
    ['shoeSize', 44],
  ])('refuses the %s %s by its name, and keeps what was', async (field, value) => {
    await other.put(PATH, MINE)
    const answer = await other.put(PATH, { ...MINE, [field]: value })
    expect(answer.status).toBe(422)
    expect(JSON.stringify(answer.body)).toContain(field)
    expect(await preferencesOf(other)).toEqual(MINE)
  })

  it('is nothing that a token has', async () => {
    const { secret } = await test.owner.made<{ secret: string }>('/v1/accessTokens', {
      name: 'Reader',
      scope: 'integration',
      shopId: null,
    })
    const token = test.owner.as(secret)
    expect(await preferencesOf(token)).toEqual(NONE)
    expect((await token.put(PATH, MINE)).status).toBe(409)
  })
})
