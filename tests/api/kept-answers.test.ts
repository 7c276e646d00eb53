import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../apps/api/src/app.ts'
import { loadDemo } from '../../apps/api/src/demo/load.ts'
import { DEMO_PASSWORD, DEMO_PEOPLE } from '../../apps/api/src/demo/people.ts'
import type { App } from '../../apps/api/src/foundation/http/app-type.ts'
import { KeptAnswers } from '../../apps/api/src/foundation/http/kept-answers.ts'
import { freshDatabase, ONE_KIND, type TestDatabase } from '../support/databases.ts'
import { Client, CONFIG, NOON } from '../support/test-app.ts'

/** As `KeptAnswers`, and keeps nothing: each answer is made anew. */
class MadeAnew extends KeptAnswers {
  override tell(...[, , , make]: Parameters<KeptAnswers['tell']>) {
    return make()
  }
}

const SPANISH = {
  name: 'Bartle Oakenshaw',
  preferences: { language: 'es', temperature: 'F', volume: null, length: null, clock: '12h', firstDay: null },
}

interface Listed {
  readonly items: readonly { readonly id: string; readonly state: string; readonly version: number }[]
}

describe.each(ONE_KIND)('answers that are kept, in the %s database', (kind) => {
  let test: TestDatabase
  let keeping: App
  let anew: App
  const clock = { now: NOON }
  const people = new Map<string, { kept: Client; anew: Client }>()
  beforeAll(async () => {
    test = await freshDatabase(kind)
    await loadDemo(test.database, NOON)
    const { database } = test
    const parts = {
      config: CONFIG,
      database,
      clock: () => clock.now,
      requestsPerMinute: 1_000_000,
      mostDelayMs: 0,
    }
    keeping = await buildApp(parts)
    anew = await buildApp({ ...parts, answers: new MadeAnew() })
    await Promise.all([keeping, anew].map((app) => app.listen({ port: 0, host: '127.0.0.1' })))
    // The owner, the first and the last of the technicians, who work in different shops, and one of each other role.
    const asking = DEMO_PEOPLE.filter(({ shop }) => shop === null || shop === 0 || shop === 3)
    for (const { email, name, role, shop } of asking) {
      const body = { email, password: DEMO_PASSWORD }
      const { token } = await new Client(keeping).made<{ token: string }>('/v1/sessions', body)
      // Of two who have the same roles, one reads Spanish and another unit.
      const readsSpanish = name === SPANISH.name
      if (readsSpanish) await new Client(keeping, token).put('/v1/me/preferences', SPANISH.preferences)
      people.set(`${role} of ${shop ?? 'every shop'}${readsSpanish ? ', in Spanish' : ''}`, {
        kept: new Client(keeping, token),
        anew: new Client(anew, token),
      })
    }
  })
  afterAll(async () => {
    await Promise.all([keeping.close(), anew.close()])
    await test.end()
  })

  /** Everybody's, letter by letter; and that it is so for each of them at the second time of asking too. */
  async function expectSame(paths: readonly string[], after: string): Promise<void> {
    for (const path of paths) {
      const asked = [...people].map(async ([who, { kept, anew: fresh }]) => {
        const made = await fresh.get(path)
        for (const time of [1, 2]) {
          const told = await kept.get(path)
          expect(`${told.status} ${told.text}`, `${path} for the ${who} after ${after}, ${time}`).toBe(
            `${made.status} ${made.text}`,
          )
        }
      })
      await Promise.all(asked)
    }
  }

  it('are told to each as they would be made, whatever is done meanwhile', async () => {
    const owner = people.get('owner of every shop')!.kept
    const { items: shops } = await owner.read<Listed>('/v1/shops')
    const [here, there] = [shops[0]!, shops[1]!]
    const { items: bonds } = await owner.read<Listed>(`/v1/bonds?shopId=${here.id}`)
    const running = bonds.find(({ state }) => state === 'clamped') ?? bonds[0]!
    const paths = [
      ...[here, there].flatMap(({ id }) => [
        `/v1/cartridges?shopId=${id}&limit=50`,
        `/v1/shops/${id}/bayBoard`,
      ]),
      `/v1/bonds?shopId=${here.id}`,
      '/v1/cartridges?limit=100',
      `/v1/bonds/${running.id}`,
      '/v1/overview',
    ]
    await expectSame(paths, 'nothing')

    const { items: sensors } = await owner.read<Listed>(`/v1/shops/${here.id}/sensors`)
    const { items: pieces } = await owner.read<Listed>(`/v1/cartridges?shopId=${here.id}&state=sealed`)
    const { items: alerts } = await owner.read<Listed>(`/v1/alerts?shopId=${here.id}`)
    const reason = 'Found on the floor'
    const at = clock.now.toISOString()
    // The clock stands still: what is told again can only be outdated by what is done.
    const acts: readonly [string, () => Promise<unknown>][] = [
      [
        'a reading of the metal',
        () => owner.made(`/v1/bonds/${running.id}/readings`, { temperatureC: 21.5, confirmed: [] }),
      ],
      ...sensors
        .slice(0, 3)
        .map(
          ({ id }) =>
            [
              'a reading of the air',
              () => owner.made(`/v1/sensors/${id}/readings`, { readings: [{ at, temperatureC: 12 }] }),
            ] as [string, () => Promise<unknown>],
        ),
      [
        'a cartridge that is thrown away',
        () => owner.made(`/v1/cartridges/${pieces[0]!.id}/discard`, { reason }),
      ],
      [
        'a cartridge that is opened',
        () => owner.made(`/v1/cartridges/${pieces.at(-1)!.id}/opening`, { reason }),
      ],
      ['an alert that is taken', () => owner.made(`/v1/alerts/${alerts[0]!.id}/acknowledgement`)],
      ['a bond that is given up', () => owner.made(`/v1/bonds/${running.id}/abandonment`, { reason })],
    ]
    for (const [what, act] of acts) {
      await act()
      await expectSame(paths, what)
    }
    clock.now = new Date(NOON.getTime() + 90 * 60_000)
    await expectSame(paths, 'an hour and a half')
    // Some 900 requests, each compared.
  }, 180_000)

  it('are not told to who has lost his role, nor after he was shut out', async () => {
    const { kept } = people.get('viewer of every shop')!
    const shops = async () => (await kept.read<{ shops: unknown[] }>('/v1/overview')).shops.length
    expect(await shops()).toBe(4)
    const viewer = { person: { email: 'viewer@bramblewick.example' } }
    await test.database.prisma.membership.deleteMany({ where: viewer })
    expect(await shops()).toBe(0)
    await test.database.prisma.signInSession.deleteMany({ where: viewer })
    expect((await kept.get('/v1/overview')).status).toBe(401)
  })

  it('are made once for many who ask at one moment', async () => {
    const answers = new KeptAnswers()
    let made = 0
    const make = async () => {
      made += 1
      await new Promise((resolve) => setTimeout(resolve, 5))
      return { text: String(made), version: undefined }
    }
    const ask = (mark: string, now: Date) => answers.tell('question', mark, now, make)
    const told = await Promise.all(Array.from({ length: 50 }, () => ask('1', NOON)))
    expect([...new Set(told.map(({ text }) => text))]).toEqual(['1'])
    expect((await ask('1', new Date(NOON.getTime() + 999))).text).toBe('1')
    expect((await ask('2', NOON)).text).toBe('2')
    expect((await ask('2', new Date(NOON.getTime() + 1000))).text).toBe('3')
    const refuse = () => answers.tell('refused', '1', NOON, () => Promise.reject(new Error('no')))
    await expect(refuse()).rejects.toThrow('no')
    await expect(answers.tell('refused', '1', NOON, make)).resolves.toMatchObject({ text: '4' })
  })
})
