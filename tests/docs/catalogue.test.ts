import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript-api'
import { expect, it } from 'vitest'
import { areas as pages } from '../../packages/messages/src/catalogue/en.ts'
import { service } from '../../packages/messages/src/catalogue/en-service.ts'

const areas = { ...pages, ...service }
const root = fileURLToPath(new URL('../../', import.meta.url))

/** What is said somewhere: keys in quotes, and the beginnings of those that are put together, `calendar.month.${n}`. */
function said(): { readonly whole: Set<string>; readonly beginnings: readonly string[] } {
  const files = ['apps', 'packages']
    .flatMap((top) => readdirSync(`${root}${top}`).map((name) => `${top}/${name}/src/`))
    .flatMap((from) =>
      readdirSync(`${root}${from}`, { recursive: true }).map((path) => `${from}${String(path)}`),
    )
    .filter((path) => /\.tsx?$/.test(path) && !/\/catalogue\/|\.test\.tsx?$|\/generated\//.test(path))
  const text = files.map((path) => readFileSync(`${root}${path}`, 'utf8')).join('\n')
  return {
    whole: new Set([...text.matchAll(/['"`]([a-z][\w-]*(?:\.[\w-]+)+)['"`]/gi)].map(([, key = '']) => key)),
    beginnings: [...text.matchAll(/`([a-z][\w-]*\.(?:[\w-]+\.)*)\$\{/gi)].map(([, start = '']) => start),
  }
}

it('has no message in the catalogue that nothing says', () => {
  const { whole, beginnings } = said()
  const keys = Object.values(areas).flatMap((patterns) => Object.keys(patterns))
  expect(keys.filter((key) => !whole.has(key) && !beginnings.some((each) => key.startsWith(each)))).toEqual(
    [],
  )
})

/** Calls of `t` that run when their module is loaded: the words may not be there yet, and stay when the reader changes. */
function saidTooEarly(path: string): string[] {
  const source = ts.createSourceFile(
    path,
    readFileSync(`${root}${path}`, 'utf8'),
    ts.ScriptTarget.Latest,
    true,
  )
  const found: string[] = []
  const look = (node: ts.Node, isWithin: boolean): void => {
    const isLater = isWithin || ts.isFunctionLike(node)
    if (!isWithin && ts.isCallExpression(node) && node.expression.getText() === 't')
      found.push(`${path}: ${node.getText()}`)
    ts.forEachChild(node, (child) => look(child, isLater))
  }
  look(source, false)
  return found
}

it('is asked for words when something is shown, not when a module is loaded', () => {
  const from = 'apps/dashboard/src/'
  const paths = readdirSync(`${root}${from}`, { recursive: true })
    .map((path) => `${from}${String(path)}`)
    .filter((path) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path))
  expect(paths.flatMap(saidTooEarly)).toEqual([])
})

it('has on each screen only words that are loaded with it', () => {
  const everywhere = readFileSync(`${root}packages/messages/src/everywhere/en.ts`, 'utf8')
  const from = 'apps/dashboard/src/screens/'
  const others = Object.keys(areas).filter((area) => !everywhere.includes(`/catalogue/en/${area}.ts`))
  const found = readdirSync(`${root}${from}`, { recursive: true })
    .map((path) => String(path))
    .filter((path) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path))
    .flatMap((path) =>
      [...readFileSync(`${root}${from}${path}`, 'utf8').matchAll(/'([a-z-]+)\.[A-Za-z0-9.]+'/g)]
        .filter(([, area = '']) => others.includes(area) && area !== path.split('/')[0])
        .map(([key]) => `${path}: ${key}`),
    )
  expect(found).toEqual([])
})
