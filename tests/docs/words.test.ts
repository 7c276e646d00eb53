import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript-api'
import { describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** The second column of 'Not these' in docs/words.md. */
const REFUSED = readFileSync(join(ROOT, 'docs/words.md'), 'utf8')
  .split('## Not these')[1]!
  .split('\n')
  .flatMap((line) => /^\| (?!say|---)[^|]+ \| ([^|]+) \|$/.exec(line)?.[1] ?? [])

const sourcesIn = (folder: string, ending: RegExp): string[] =>
  readdirSync(join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter(({ name, parentPath }) => ending.test(name) && !/node_modules|generated|dist/.test(parentPath))
    .map(({ name, parentPath }) => join(parentPath, name))

/** What a person may read: texts between quotes and tags, without comments. */
function textsOf(path: string): string[] {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, false)
  const texts: string[] = []
  const look = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node))
      texts.push(node.text)
    else if (ts.isJsxText(node)) texts.push(node.text.replaceAll(/\s+/g, ' '))
    ts.forEachChild(node, look)
  }
  look(source)
  return texts
}

const refusedIn = (texts: readonly string[]): string[] =>
  REFUSED.filter((words) => texts.some((text) => text.toLowerCase().includes(words)))

describe('the words of docs/words.md', () => {
  it('has some that are refused, all in small letters', () => {
    expect(REFUSED.length).toBeGreaterThan(10)
    expect(REFUSED.filter((words) => words !== words.toLowerCase())).toEqual([])
    expect(refusedIn(['The Gravest of all'])).toEqual(['gravest'])
  })

  it('are kept in what people read on screens, in mail and in answers of the API', () => {
    const found = ['apps/dashboard/src', 'apps/api/src', 'packages/contracts/src'].flatMap((folder) =>
      sourcesIn(folder, /(?<!\.test)\.tsx?$/).flatMap((path) =>
        refusedIn(textsOf(path)).map((words) => `${relative(ROOT, path)}: ${words}`),
      ),
    )
    expect(found).toEqual([])
  })

  it('are kept in the guides', () => {
    const guides = sourcesIn('docs', /\.md$/).filter((path) => !/decisions|words|changelog/.test(path))
    const found = [...guides, join(ROOT, 'README.md')].flatMap((path) =>
      refusedIn([readFileSync(path, 'utf8')]).map((words) => `${relative(ROOT, path)}: ${words}`),
    )
    expect(found).toEqual([])
  })
})
