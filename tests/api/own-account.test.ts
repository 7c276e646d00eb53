import type { Me, OwnSession } from '@clampclock/contracts'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ONE_KIND } from '../support/databases.ts'
import { makeShop } from '../support/fixtures.ts'
import { PASSWORD, startTestApp, type Client, type TestApp } from '../support/test-app.ts'

const EMAIL = 'anna@test.example'
const OTHER = 'three blue kettles on a shelf'
const PHONE = 'Mozilla/5.0 (Invented; Handheld) Browser/1.0 Mobile'
const DESK = 'Mozilla/5.0 (Invented; Desk) Browser/1.0'

interface Listed {
  readonly items: readonly (Omit<OwnSession, 'lastUsedAt'> & { readonly lastUsedAt: string })[]
}

describe.each(ONE_KIND)('one’s own account, on the %s database', (kind) => {
  let test: TestApp
  let anna: Client
  let annaId: string
  beforeEach(async () => {
    test = await startTestApp(kind)
    const { id } = await test.owner.made('/v1/people', {
      name: 'Anna Ferrule',
      email: EMAIL,
      password: PASSWORD,
      memberships: [{ shopId: null, role: 'technician' }],
    })
    annaId = id
    anna = await test.signIn(EMAIL)
  })
  afterEach(() => test.end())

  const later = (seconds: number) => {
    test.clock.now = new Date(test.clock.now.getTime() + seconds * 1000)
  }
  const signInWith = (password: string) => test.anybody.post('/v1/sessions', { email: EMAIL, password })
  const cookieOf = (response: { headers: Record<string, unknown> }) =>
    (response.headers['set-cookie'] as string[] | undefined)?.[0]?.split(';', 1)[0]
  const inBrowser = async (userAgent = DESK, cookie = '') =>
    cookieOf(await signInWith(PASSWORD).set('user-agent', userAgent).set('cookie', cookie))!
  const meBy = (cookie: string) => test.anybody.get('/v1/me').set('cookie', cookie)

  describe('a password of one’s own', () => {
    it('is changed by who knows the present one, and ends every other session', async () => {
      const elsewhere = await test.signIn(EMAIL)
      const wrong = await anna.put('/v1/me/password', { present: 'not this one at all', password: OTHER })
      expect(wrong.status).toBe(422)
      expect(wrong.body.reasons).toMatchObject([{ field: 'body.present' }])
      expect((await elsewhere.get('/v1/me')).status).toBe(200)

      expect((await anna.put('/v1/me/password', { present: PASSWORD, password: OTHER })).status).toBe(204)
      expect((await anna.get('/v1/me')).status).toBe(200)
      expect((await elsewhere.get('/v1/me')).status).toBe(401)
      expect((await signInWith(PASSWORD)).status).toBe(401)
      expect((await signInWith(OTHER)).status).toBe(201)
    })

    it('is not found out by trying at an open session', async () => {
      const change = (present: string) => anna.put('/v1/me/password', { present, password: OTHER })
      for (let time = 0; time < 5; time += 1)
        expect((await change(`a guess at it, ${time}`)).status).toBe(422)
      const held = await change(PASSWORD)
      expect(held.status).toBe(429)
      expect(held.headers['retry-after']).toBe('1')
    })

    it('is not the one that it was, and not changed by an owner’s page of people', async () => {
      const same = await anna.put('/v1/me/password', { present: PASSWORD, password: PASSWORD })
      expect(same.body.reasons).toMatchObject([{ field: 'body.password' }])
      const me = await test.owner.read<Me>('/v1/me')
      const around = await test.owner.patch(`/v1/people/${me.id}`, { password: OTHER }, 1)
      expect(around.status).toBe(409)
      expect((await test.signIn('owner@test.example')) !== undefined).toBe(true)
    })

    it.each([
      ['password1234', 'a common one, with digits after it'],
      ['P@ssw0rd!!2031', 'a common one, in other signs'],
      ['qwertyqwerty', 'a common one, twice'],
      ['q1w2e3r4t5y6', 'a common one as it stands'],
      ['aaaaaaaaaaaaaaa', 'hardly more than one sign'],
      ['ferrule anna 2031', 'her own name'],
      ['clampclock-clampclock', 'the service’s name'],
    ])('is refused as %s: %s', async (password) => {
      const answer = await anna.put('/v1/me/password', { present: PASSWORD, password })
      expect(answer.status).toBe(422)
      expect(answer.body.reasons).toMatchObject([{ field: 'body.password' }])
      expect(answer.body.reasons[0].fix).toBeTruthy()
    })

    it('is held to the same where an owner gives one', async () => {
      const person = { name: 'Bo', email: 'bo@test.example', memberships: [{ shopId: null, role: 'viewer' }] }
      const common = await test.owner.post('/v1/people', { ...person, password: 'Password1234' })
      expect(common.body.reasons).toMatchObject([{ field: 'body.password' }])
      const reset = await test.owner.patch(`/v1/people/${annaId}`, { password: 'anna ferrule 1' }, 1)
      expect(reset.body.reasons).toMatchObject([{ field: 'body.password' }])
    })

    it('does not exist for a token', async () => {
      const { secret } = await test.owner.made<{ secret: string }>('/v1/accessTokens', {
        name: 'Program',
        scope: 'integration',
      })
      const token = anna.as(secret)
      expect((await token.put('/v1/me/password', { present: PASSWORD, password: OTHER })).status).toBe(409)
      expect((await token.get('/v1/me/sessions')).status).toBe(409)
    })
  })

  describe('a password that an owner set', () => {
    it('opens nothing but the choice of one’s own', async () => {
      const reset = await test.owner.patch(`/v1/people/${annaId}`, { password: OTHER }, 1)
      expect(reset.status).toBe(200)
      expect((await anna.get('/v1/me')).status).toBe(401)
      const { token, me } = (await signInWith(OTHER)).body as { token: string; me: Me }
      expect(me.mustChangePassword).toBe(true)
      const temporary = anna.as(token)
      const shut = await temporary.get('/v1/shops')
      expect(shut.status).toBe(403)
      expect(shut.body.type).toBe('/problems/password-temporary')
      expect((await temporary.get('/v1/events')).status).toBe(403)
      expect((await temporary.get('/v1/me')).status).toBe(200)
      const own = 'four green kettles on a shelf'
      expect((await temporary.put('/v1/me/password', { present: OTHER, password: own })).status).toBe(204)
      expect((await temporary.get('/v1/shops')).status).toBe(200)
      expect((await temporary.read<Me>('/v1/me')).mustChangePassword).toBe(false)
    })

    it('is one that must be changed from the beginning, where the owner says so', async () => {
      await test.owner.made('/v1/people', {
        name: 'Bo',
        email: 'bo@test.example',
        password: PASSWORD,
        mustChangePassword: true,
        memberships: [{ shopId: null, role: 'viewer' }],
      })
      expect((await (await test.signIn('bo@test.example')).get('/v1/overview')).status).toBe(403)
    })
  })

  describe('sessions', () => {
    it('are listed with device, beginning and last use, of oneself alone', async () => {
      later(3600)
      const phone = await inBrowser(PHONE)
      later(3600)
      await meBy(phone)
      const { items } = await anna.read<Listed>('/v1/me/sessions')
      expect(items.map(({ device, isCurrent }) => [device.kind, isCurrent])).toEqual([
        ['program', true],
        ['phone', false],
      ])
      expect(items[1]!.device.userAgent).toBe(PHONE)
      expect(items[1]!.lastUsedAt).toBe(test.clock.now.toISOString())
      expect(JSON.stringify(items)).not.toContain('secret')
    })

    it('end one by one, by their owner alone', async () => {
      const phone = await inBrowser(PHONE)
      const { items } = await anna.read<Listed>('/v1/me/sessions')
      const { id } = items.find(({ isCurrent }) => !isCurrent)!
      expect((await test.owner.delete(`/v1/me/sessions/${id}`)).status).toBe(404)
      expect((await anna.delete(`/v1/me/sessions/${id}`)).status).toBe(204)
      expect((await meBy(phone)).status).toBe(401)
      expect((await anna.get('/v1/me')).status).toBe(200)
    })

    it('end all at once, this one too', async () => {
      const phone = await inBrowser(PHONE)
      const out = await test.anybody.delete('/v1/me/sessions').set('cookie', phone)
      expect(out.status).toBe(204)
      expect((out.headers['set-cookie'] as unknown as string[])[0]).toMatch(/^clampclock_session=;/)
      expect((await meBy(phone)).status).toBe(401)
      expect((await anna.get('/v1/me')).status).toBe(401)
      expect((await test.owner.get('/v1/me')).status).toBe(200)
    })

    it('begin anew at each sign-in: the one that the browser had is over', async () => {
      const first = await inBrowser()
      const second = await inBrowser(DESK, first)
      expect(second).not.toBe(first)
      expect((await meBy(first)).status).toBe(401)
      expect((await meBy(second)).status).toBe(200)
    })

    it('get another secret when a role changes; the one before lasts for what is under way', async () => {
      const shop = await makeShop(test.owner)
      const old = await inBrowser()
      await test.owner.patch(
        `/v1/people/${annaId}`,
        { memberships: [{ shopId: shop.shopId, role: 'viewer' }] },
        1,
      )
      const answers = await Promise.all([meBy(old), meBy(old), meBy(old)])
      expect(answers.map(({ status }) => status)).toEqual([200, 200, 200])
      const given = answers.flatMap((answer) => cookieOf(answer) ?? [])
      expect(given).toHaveLength(1)
      expect(given[0]).not.toBe(old)
      expect((await meBy(given[0]!)).status).toBe(200)
      expect(cookieOf(await meBy(given[0]!))).toBeUndefined()
      later(61)
      expect((await meBy(old)).status).toBe(401)
      expect((await meBy(given[0]!)).status).toBe(200)
      // A program was told its secret once, and has no way to be told another.
      expect((await anna.get('/v1/me')).status).toBe(200)
    })
  })
})
