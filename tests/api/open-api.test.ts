import { readFile } from 'node:fs/promises'
import { isDeepStrictEqual } from 'node:util'
import SwaggerParser from '@apidevtools/swagger-parser'
import { PROBLEMS, ROUTES, type RouteContract } from '@clampclock/contracts'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { startTestApp, type TestApp } from '../support/test-app.ts'

interface Document {
  readonly openapi: string
  readonly info: { readonly version: string }
  readonly components: { readonly schemas: Readonly<Record<string, object>> }
  readonly paths: Record<
    string,
    Record<
      string,
      { operationId: string; security: object[]; responses: Record<string, { description: string }> }
    >
  >
}

describe('/openapi.json', () => {
  let test: TestApp
  let document: Document
  beforeAll(async () => {
    test = await startTestApp('embedded')
    document = await test.anybody.read<Document>('/openapi.json')
  })
  afterAll(() => test.end())

  it('is a valid OpenAPI 3.1 document', async () => {
    expect(document.openapi).toBe('3.1.0')
    await SwaggerParser.validate(
      structuredClone(document) as unknown as Parameters<typeof SwaggerParser.validate>[0],
    )
  })

  it('has every route of the contracts, with its success and its problems', () => {
    for (const contract of Object.values<RouteContract>(ROUTES)) {
      const operation =
        document.paths[contract.path.replace(/:(\w+)/g, '{$1}')]?.[contract.method.toLowerCase()]
      expect(operation?.operationId).toBe(contract.operationId)
      expect(Object.keys(operation!.responses)).toEqual(
        expect.arrayContaining([String(contract.status), '4XX', '5XX']),
      )
      expect(operation!.security.length > 0).toBe(contract.access !== 'public')
    }
  })

  it('says in words what each answer is, each in its own', () => {
    const answers = Object.values(document.paths).flatMap((path) =>
      Object.values(path).flatMap(({ responses }) => Object.values(responses)),
    )
    expect(answers.filter(({ description }) => !/^[A-Z].{3,}/.test(description))).toEqual([])
    expect(answers.filter(({ description }) => description === 'Default Response')).toEqual([])
  })

  it('has a second schema of a thing only where it is sent otherwise than it is answered, and none unused', () => {
    const text = JSON.stringify(document)
    const { schemas } = document.components
    const names = Object.keys(schemas)
    expect(names.filter((name) => !text.includes(`"#/components/schemas/${name}"`))).toEqual([])
    const twins = names.filter((name) => name.endsWith('Input') && name.slice(0, -5) in schemas)
    expect(twins.filter((name) => isDeepStrictEqual(schemas[name], schemas[name.slice(0, -5)]))).toEqual([])
  })

  it('is docs/openapi.json, which `npm run openapi` renews', async () => {
    await expect(`${JSON.stringify(document, null, 1)}\n`).toMatchFileSnapshot('../../docs/openapi.json')
  })

  it('has the version of the program', async () => {
    const { version } = JSON.parse(
      await readFile(new URL('../../package.json', import.meta.url), 'utf8'),
    ) as Document['info']
    expect(document.info.version).toBe(version)
  })

  it('has a page to read it by', async () => {
    const page = await test.anybody.get('/docs/').expect(200)
    expect(page.headers['content-type']).toContain('text/html')
  })
})

describe('docs/problems.md', () => {
  it('tells of every problem there is, and of no other', async () => {
    const page = await readFile(new URL('../../docs/problems.md', import.meta.url), 'utf8')
    const told = [...page.matchAll(/^\| `([a-z-]+)` \| (\d{3}) \|/gm)].map(([, code, status]) => [
      code,
      Number(status),
    ])
    expect(Object.fromEntries(told)).toEqual(
      Object.fromEntries(Object.entries(PROBLEMS).map(([code, { status }]) => [code, status])),
    )
  })
})
