import supertest from 'supertest'
import { expect } from 'vitest'
import { SetUpCode } from '../../apps/api/src/foundation/access/set-up.ts'
import { buildApp } from '../../apps/api/src/app.ts'
import { DEFAULT_PASSWORD_COST, type Config } from '../../apps/api/src/foundation/config/config.ts'
import type { Database } from '../../apps/api/src/foundation/database/database.ts'
import type { App } from '../../apps/api/src/foundation/http/app-type.ts'
import { freshDatabase, type Kind } from './databases.ts'

/** A Wednesday noon in New York. */
export const NOON = new Date('2031-05-07T16:00:00Z')
export const PASSWORD = 'a password of some length'

export const CONFIG: Config = {
  port: 0,
  host: '127.0.0.1',
  dataDir: '',
  databaseUrl: undefined,
  secureCookies: false,
  trustProxy: false,
  logLevel: 'silent',
  publicUrl: undefined,
  smtpUrl: undefined,
  mailFrom: 'Clampclock <clampclock@test.example>',
  webhookPrivateAddresses: false,
  isOpen: false,
  demo: 'serve',
  passwordCost: DEFAULT_PASSWORD_COST,
  keep: { eventsDays: 7, keysDays: 30, deliveriesDays: 90, allReadingsDays: 400 },
}

/** Sends requests as one person or token. */
export class Client {
  readonly #app: App
  readonly #token: string

  constructor(app: App, token = '') {
    this.#app = app
    this.#token = token
  }

  /** The same service, asked by somebody else. */
  as(token: string): Client {
    return new Client(this.#app, token)
  }

  get(path: string): supertest.Test {
    return this.#with(supertest(this.#app.server).get(path))
  }

  post(path: string, body: object = {}): supertest.Test {
    return this.#with(supertest(this.#app.server).post(path)).send(body)
  }

  /** `version`: only for what asks for If-Match. */
  put(path: string, body: object, version?: number): supertest.Test {
    const request = this.#with(supertest(this.#app.server).put(path))
    return (version === undefined ? request : request.set('if-match', `"${version}"`)).send(body)
  }

  patch(path: string, body: object, version: number): supertest.Test {
    return this.#with(supertest(this.#app.server).patch(path)).set('if-match', `"${version}"`).send(body)
  }

  delete(path: string): supertest.Test {
    return this.#with(supertest(this.#app.server).delete(path))
  }

  /** As `post`, and expects it to be done. */
  async made<Body = Record<string, never> & { id: string }>(path: string, body: object = {}): Promise<Body> {
    const response = await this.post(path, body)
    expect(response.status, `POST ${path}: ${JSON.stringify(response.body)}`).toBeLessThan(300)
    return response.body as Body
  }

  async read<Body>(path: string): Promise<Body> {
    const response = await this.get(path)
    expect(response.status, `GET ${path}: ${JSON.stringify(response.body)}`).toBe(200)
    return response.body as Body
  }

  #with(test: supertest.Test): supertest.Test {
    return this.#token ? test.set('authorization', `Bearer ${this.#token}`) : test
  }
}

export interface TestApp {
  readonly app: App
  readonly database: Database
  readonly url: string
  readonly anybody: Client
  readonly owner: Client
  readonly clock: { now: Date }
  readonly signIn: (email: string) => Promise<Client>
  readonly end: () => Promise<void>
}

/** The whole service on a fresh database, with one chain and its owner, and a clock that stands until it is set. */
export async function startTestApp(
  kind: Kind,
  now = NOON,
  changes: Partial<Config> = {},
  requestsPerMinute = 1_000_000,
): Promise<TestApp> {
  const { database, url, end } = await freshDatabase(kind)
  const clock = { now }
  const setUpCode = new SetUpCode()
  const app = await buildApp({
    config: { ...CONFIG, ...changes },
    database,
    setUpCode,
    clock: () => clock.now,
    requestsPerMinute,
    // Many processes share few cores here: one that had to wait for its turn is not busy.
    mostDelayMs: 0,
  })
  await app.listen({ port: 0, host: '127.0.0.1' })
  const anybody = new Client(app)
  await anybody.made('/v1/setup', {
    setupCode: setUpCode.value,
    organizationName: 'Test chain',
    name: 'Owner',
    email: 'owner@test.example',
    password: PASSWORD,
  })
  const signIn = async (email: string) => {
    const { token } = await anybody.made<{ token: string }>('/v1/sessions', { email, password: PASSWORD })
    return new Client(app, token)
  }
  return {
    app,
    database,
    url,
    anybody,
    owner: await signIn('owner@test.example'),
    clock,
    signIn,
    end: async () => {
      await app.close()
      await end()
    },
  }
}
