import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript-api'
import { expect, it } from 'vitest'
import { areas as pages } from '../../packages/messages/src/catalogue/en.ts'
import { fieldSentence } from '../../apps/api/src/foundation/http/field-words.ts'
import { service } from '../../packages/messages/src/catalogue/en-service.ts'

const areas = { ...pages, ...service }
const root = fileURLToPath(new URL('../../', import.meta.url))

/** What is said somewhere: keys in quotes, and the beginnings of those that are put together, `calendar.month.${n}`. */
function said(): {
  readonly text: string
  readonly whole: Set<string>
  readonly beginnings: readonly string[]
} {
  const files = ['apps', 'packages']
    .flatMap((top) => readdirSync(`${root}${top}`).map((name) => `${top}/${name}/src/`))
    .flatMap((from) =>
      readdirSync(`${root}${from}`, { recursive: true }).map((path) => `${from}${String(path)}`),
    )
    .filter(
      (path) => /\.tsx?$/.test(path) && !/messages\/src\/catalogue\/|\.test\.tsx?$|\/generated\//.test(path),
    )
  const text = files.map((path) => readFileSync(`${root}${path}`, 'utf8')).join('\n')
  return {
    text,
    whole: new Set([...text.matchAll(/['"`]([a-z][\w-]*(?:\.[\w-]+)+)['"`]/gi)].map(([, key = '']) => key)),
    beginnings: [...text.matchAll(/`([a-z][\w-]*\.(?:[\w-]+\.)*)\$\{/gi)].map(([, start = '']) => start),
  }
}

it('has no message in the catalogue that nothing says', () => {
  const { text, whole, beginnings } = said()
  // What the contract says of a field is found by its English.
  const isOfContract = (key: string, pattern: string) =>
    key.startsWith('field.') && text.includes(`'${pattern}'`)
  const entries = Object.values(areas).flatMap((patterns) => Object.entries<string>(patterns))
  expect(
    entries
      .filter(([key, pattern]) => !whole.has(key) && !isOfContract(key, pattern))
      .map(([key]) => key)
      .filter((key) => !beginnings.some((each) => key.startsWith(each))),
  ).toEqual([])
})

/** What the contract says of fields: texts that follow a bound or `error:`, in quotes. */
function saidOfFields(): string[] {
  const from = 'packages/contracts/src/'
  return readdirSync(`${root}${from}`, { recursive: true })
    .map((path) => `${from}${String(path)}`)
    .concat(
      'apps/api/src/planning/operations/import-table.ts',
      'apps/api/src/cure/temperature/readings-table.ts',
    )
    .filter((path) => path.endsWith('.ts'))
    .flatMap((path) => [
      ...readFileSync(`${root}${path}`, 'utf8').matchAll(
        /(?:error|message): '((?:must|is|are|give|write|or|goes|a bay|names) [^']*)'|(?:\(|, )'((?:must|give|send|name|names|write|scan|is) [^']*)'\)/g,
      ),
    ])
    .map(([, one, other]) => one ?? other ?? '')
}

it('has every sentence that the contract says of a field', () => {
  const sentences = saidOfFields()
  expect(sentences.length).toBeGreaterThan(100)
  expect(sentences.filter((each) => fieldSentence(each).code === 'problem.asTold')).toEqual([])
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
