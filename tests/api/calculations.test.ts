import { readFile } from 'node:fs/promises'
import { CALCULATION_EXAMPLES, ROUTES, type RouteContract } from '@clampclock/contracts'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../apps/api/src/app.ts'
import { Client, startTestApp, type TestApp } from '../support/test-app.ts'

type Name = keyof typeof CALCULATION_EXAMPLES
type Path = readonly (string | number)[]

const NAMES = Object.keys(CALCULATION_EXAMPLES) as Name[]
const HOSTILE: readonly unknown[] = [
  null,
  true,
  '',
  'x',
  -1,
  0,
  1e308,
  1e-9,
  '0001-01-01T00:00:00Z',
  '9999-12-31T23:59:59Z',
  '9999-12-31',
  [],
  {},
  { min: 5, max: 1 },
]

/** Every field of a value, however deep; of a list, its first. */
function pathsOf(value: unknown, path: Path = []): Path[] {
  const own = path.length === 0 ? [] : [path]
  if (typeof value !== 'object' || value === null) return own
  const entries = Array.isArray(value) ? [[0, value[0]] as const] : Object.entries(value)
  return [...own, ...entries.flatMap(([key, each]) => pathsOf(each, [...path, key]))]
}

function changed(body: object, path: Path, value: unknown): object {
  const copy = structuredClone(body) as Record<string | number, unknown>
  let at = copy
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>
  at[path.at(-1)!] = value
  return copy
}

/** What the page prints must be what is answered, to the digits printed; what it leaves out may be anything. */
function expectPrinted(shown: unknown, answer: unknown, at = ''): void {
  if (typeof shown !== 'object' || shown === null) {
    expect(answer, at).toEqual(shown)
    return
  }
  const { digits } = shown as { digits?: string }
  if (digits !== undefined) {
    expect((answer as number).toFixed(digits.split('.')[1]?.length ?? 0), at).toBe(digits)
    return
  }
  for (const [key, each] of Object.entries(shown))
    expectPrinted(each, (answer as Record<string, unknown>)[key], `${at}.${key}`)
}

/** JSON with each number as the digits that stand there. */
function withDigits(json: string): unknown {
  return JSON.parse(json.replaceAll(/(?<=(?:":|\[)\s*)-?\d+(?:\.\d+)?(?=\s*[,}\]])/g, '{ "digits": "$&" }'))
}

describe('/v1/calculations', () => {
  let test: TestApp
  let page: string
  beforeAll(async () => {
    test = await startTestApp('embedded')
    page = await readFile(new URL('../../docs/calculations.md', import.meta.url), 'utf8')
  })
  afterAll(() => test.end())
  const ask = (client: Client, name: Name, body: object = CALCULATION_EXAMPLES[name]) =>
    client.post(`/v1/calculations/${name}`, body)

  it.each(NAMES)(
    '%s: docs/calculations.md asks what the API document shows, and prints the answer',
    async (name) => {
      const section = page.split(/^## /m).find((each) => each.startsWith(`${name}\n`))!
      const asked = new RegExp(`/v1/calculations/${name}" [^']*-d '([^']*)'`).exec(section)?.[1]
      const printed = /```json\n([\s\S]*?)```/.exec(section)?.[1]
      expect(JSON.parse(asked!)).toEqual(CALCULATION_EXAMPLES[name])
      const response = await ask(test.owner, name)
      expect(response.status, JSON.stringify(response.body)).toBe(200)
      expectPrinted(withDigits(printed!), response.body)
    },
  )

  it('carries every example in the API document, and has a section for each route', async () => {
    interface Document {
      readonly paths: Record<
        string,
        { post: { requestBody: { content: Record<string, { schema: { example?: unknown } }> } } }
      >
    }
    const routes = Object.values<RouteContract>(ROUTES).filter(({ tag }) => tag === 'calculations')
    expect(new Set(routes.map(({ path }) => path.split('/').at(-1)!))).toEqual(new Set(NAMES))
    const { paths } = await test.anybody.read<Document>('/openapi.json')
    for (const name of NAMES) {
      const { schema } = paths[`/v1/calculations/${name}`]!.post.requestBody.content['application/json']!
      expect(schema.example).toEqual(CALCULATION_EXAMPLES[name])
    }
  })

  it('computes a triangular bead', async () => {
    const body = { bead: { shape: 'triangular', widthMm: 6, heightMm: 8 }, lengthMm: 1000, cartridgeMl: 50 }
    // 24 mm2 of section is 24 mL a metre.
    const { body: answer } = await ask(test.owner, 'bead', body)
    expect(answer).toMatchObject({ beadMl: 24, totalMl: 24, cartridges: 1, dispensingMinutes: null })
  })

  it('draws the oven from the move until the slowest panel is cool, and names what refuses', async () => {
    const { program, bonds } = CALCULATION_EXAMPLES.oven
    const oven = async (changes: object) =>
      (await ask(test.owner, 'oven', { ...CALCULATION_EXAMPLES.oven, ...changes })).body as {
        points: { atMinutes: number; airC: number; metalC: number[] }[]
        windowMinutes: { expected: number | null; conservative: number | null }
        refusals: { code: string; field: string; message: string }[]
      }
    const { points, windowMinutes } = await oven({})
    expect(points[0]).toEqual({ atMinutes: 0, airC: 25, metalC: [22, 22] })
    expect(points.at(-1)!.atMinutes).toBeCloseTo(windowMinutes.expected!, 6)
    expect(Math.max(...points.at(-1)!.metalC)).toBeCloseTo(40, 6)
    const times = points.map(({ atMinutes }) => atMinutes)
    expect(times).toEqual(times.toSorted((a, b) => a - b))

    const hot = await oven({
      program: { ...program, setPointC: 140, airToleranceC: 5, coolAirC: 45 },
      bonds: [{ ...bonds[0]!, handlingReadyAt: { kind: 'never', reason: 'tooCold' } }],
      vehicleLimitC: 60,
    })
    expect(hot.refusals.map(({ code }) => code).toSorted()).toEqual([
      'handling-strength',
      'never-cool',
      'never-cool',
      'service-range',
      'vehicle-limit',
      'vehicle-limit',
    ])
    expect(hot.refusals.find(({ code }) => code === 'service-range')!.message).toContain(
      'Invented 60 on Door skin, left is rated to 120.0 °C',
    )
    const cold = await oven({ program: { ...program, setPointC: 60 } })
    expect(cold.refusals).toMatchObject([
      { code: 'target-not-reached', field: 'body.program.setPointC' },
      { code: 'target-not-reached' },
    ])
    expect(cold.windowMinutes.conservative).toBeNull()
  })

  it.each([
    ['cure', ['readings', 1, 'at'], '2031-05-07T11:00:00Z', 'body.readings.1.at'],
    ['cure', ['sheet', 'points', 1, 'handlingTimeMinutes'], 400, 'body.sheet.points.handlingTimeMinutes'],
    ['cure', ['forecast', 1, 'lowC'], 25, 'body.forecast.1'],
    ['whatWouldHelp', ['by'], '2031-05-07T13:00:00Z', 'body.by'],
    ['oven', ['bonds', 0, 'panel'], 'Roof', 'body.bonds.0.panel'],
    ['oven', ['program', 'setPointC'], 310, 'body.program.setPointC'],
    ['panelHeat', ['layers', 1, 'thicknessMm'], 0, 'body.layers.1.thicknessMm'],
    ['panelHeat', ['run', 'air', 1, 'airC'], 320, 'body.run.air.1.airC'],
    ['bead', ['bead', 'diameterMm'], 0, 'body.bead.diameterMm'],
    ['bead', ['nozzleHoldUpMl'], 200, 'body.nozzleHoldUpMl'],
    ['dewPoint', ['airTemperatureC'], 70, 'body.airTemperatureC'],
    ['shelfLife', ['storage', 'readings', 1, 'at'], '2031-03-01T00:00:00Z', 'body.storage.readings.1.at'],
    ['dataSheetFit', ['points', 1, 'temperatureC'], 310, 'body.points.1.temperatureC'],
    ['dataSheetFit', ['temperaturesC', 1], 310, 'body.temperaturesC.1'],
  ] as const)('%s names the field that the package refuses: %j = %j', async (name, path, value, field) => {
    const { body } = await ask(test.owner, name, changed(CALCULATION_EXAMPLES[name], path, value))
    expect(body.type, JSON.stringify(body)).toBe('/problems/invalid-request')
    expect(body.reasons[0].field).toContain(field)
  })

  /** Field after field takes the next few of the values, so that each has some and each value is somewhere. */
  const SOME = 4
  const expectNoFault = async (name: (typeof NAMES)[number], most: number) => {
    for (const [i, path] of pathsOf(CALCULATION_EXAMPLES[name]).entries()) {
      for (let j = 0; j < Math.min(most, HOSTILE.length); j += 1) {
        const value = HOSTILE[(i * most + j) % HOSTILE.length]
        const { status, body } = await ask(test.owner, name, changed(CALCULATION_EXAMPLES[name], path, value))
        expect([200, 422], `${path.join('.')} = ${JSON.stringify(value)}: ${JSON.stringify(body)}`).toContain(
          status,
        )
        if (status === 422) expect(body.reasons[0].field).toMatch(/^body/)
      }
    }
  }

  it.each(NAMES)('%s: every field with hostile values in turn, none a fault of ours', (name) =>
    expectNoFault(name, SOME),
  )

  it.for(NAMES)(
    '%s: every field with every hostile value, none a fault of ours',
    { tags: ['long'] },
    (name) => expectNoFault(name, HOSTILE.length),
  )

  it('counts them apart from everything else, all of them together, for each caller', async () => {
    const { config } = test.app
    const app = await buildApp({ config, database: test.database, calculationsPerMinute: 3 })
    await app.listen({ port: 0, host: '127.0.0.1' })
    try {
      const tokenOf = async (name: string) => {
        const body = { name, scope: 'sensor' }
        return new Client(app, (await test.owner.made<{ secret: string }>('/v1/accessTokens', body)).secret)
      }
      const [first, second] = [await tokenOf('First'), await tokenOf('Second')]
      for (const name of ['bead', 'dewPoint', 'cure'] as const)
        expect((await ask(first, name)).status).toBe(200)
      const refused = await ask(first, 'bead')
      expect(refused.body.type).toBe('/problems/too-many-requests')
      expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0)
      expect((await first.get('/v1/me')).status).toBe(200)
      expect((await ask(second, 'bead')).status).toBe(200)
    } finally {
      await app.close()
    }
  })
})
