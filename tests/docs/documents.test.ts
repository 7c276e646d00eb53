import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import GithubSlugger from 'github-slugger'
import { fromMarkdown } from 'mdast-util-from-markdown'
import { toString } from 'mdast-util-to-string'
import { visit } from 'unist-util-visit'
import { describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const DECISIONS = join(ROOT, 'docs/decisions')

const documentsIn = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter(({ name, parentPath }) => name.endsWith('.md') && !parentPath.includes('node_modules'))
    .map(({ name, parentPath }) => join(parentPath, name))
const documents = [
  join(ROOT, 'README.md'),
  join(ROOT, 'DEVELOPERS.md'),
  ...['docs', 'packages', 'apps', 'tests', 'prisma'].flatMap((folder) => documentsIn(join(ROOT, folder))),
]

const manifestsIn = (folder: string): string[] =>
  readdirSync(join(ROOT, folder)).map((name) => `${folder}/${name}/package.json`)

interface Document {
  /** Addresses of its links and pictures, without those of the network. */
  readonly links: readonly string[]
  readonly anchors: ReadonlySet<string>
  readonly title: string
}

function read(path: string): Document {
  const links: string[] = []
  const headings: string[] = []
  const slugger = new GithubSlugger()
  const anchors = new Set<string>()
  visit(fromMarkdown(readFileSync(path, 'utf8')), (node) => {
    if (node.type === 'link' || node.type === 'image' || node.type === 'definition') links.push(node.url)
    if (node.type === 'html')
      links.push(...[...node.value.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, url]) => url!))
    if (node.type !== 'heading') return
    headings.push(toString(node))
    anchors.add(slugger.slug(toString(node)))
  })
  return { links: links.filter((url) => !/^[a-z]+:/i.test(url)), anchors, title: headings[0] ?? '' }
}

describe.each(documents.map((path) => [relative(ROOT, path), path] as const))('%s', (_, path) => {
  it('has no dead link', () => {
    const dead = read(path).links.filter((url) => {
      const [file, anchor] = url.split('#')
      const target = file === '' || file === undefined ? path : resolve(dirname(path), decodeURI(file))
      if (!existsSync(target)) return true
      return anchor !== undefined && !(statSync(target).isFile() && read(target).anchors.has(anchor))
    })
    expect(dead).toEqual([])
  })
})

it('lists every decision once, by the title it has', () => {
  const index = readFileSync(join(DECISIONS, 'README.md'), 'utf8')
  const missing = readdirSync(DECISIONS)
    .filter((name) => /^\d{4}-/.test(name))
    .filter((name) => {
      const title = read(join(DECISIONS, name)).title
      const number = name.slice(0, 4)
      return (
        !title.startsWith(`${number}. `) ||
        index.split(`- [${number}](${name}) ${title.slice(6)}\n`).length !== 2
      )
    })
  expect(missing).toEqual([])
})

it('has one version everywhere, and says in the changelog what is in it', () => {
  const manifests = ['package.json', ...['apps', 'packages'].flatMap(manifestsIn)].map((path) => ({
    path,
    text: readFileSync(join(ROOT, path), 'utf8'),
  }))
  const { version, license } = JSON.parse(manifests[0]!.text) as { version: string; license: string }
  // Its own, and that of each package of ours that it asks for.
  const ours = /"(?:version|@clampclock\/\w+)": "([^"]+)"/g
  const others = manifests.filter(({ text }) => [...text.matchAll(ours)].some(([, its]) => its !== version))
  expect(others.map(({ path }) => path)).toEqual([])
  const lock = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as { version: string }
  expect(lock.version).toBe(version)

  const headings = readFileSync(join(ROOT, 'docs/changelog.md'), 'utf8').match(/^## .*$/gm) ?? []
  expect(headings[0]).toBe('## [Unreleased]')
  const released = headings
    .slice(1)
    .map((heading) => /^## \[(\d+\.\d+\.\d+)\] - \d{4}-\d\d-\d\d$/.exec(heading)?.[1])
  expect(released[0]).toBe(version)
  expect(released).not.toContain(undefined)

  expect(license).toBe('Apache-2.0')
  expect(readFileSync(join(ROOT, 'LICENSE'), 'utf8')).toMatch(
    /^\s*Apache License\s+Version 2\.0, January 2004/,
  )
})

it('names no rule by a number that there is not, and only files that there are', () => {
  const rules = readFileSync(join(ROOT, 'docs/rules.md'), 'utf8')
  const known = new Set([...rules.matchAll(/^(\d+)\. \*\*/gm)].map(([, number]) => Number(number)))
  expect(known.size).toBe(9)
  const named = [...rules.matchAll(/`((?:apps|packages)\/[^`]+)`/g)].map(([, file]) => file!)
  expect(named.filter((file) => !existsSync(join(ROOT, file)))).toEqual([])
  const sources = ['apps', 'packages', 'tests', 'prisma', 'docs'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { withFileTypes: true, recursive: true }).filter(
      ({ name, parentPath }) =>
        /\.(ts|tsx|sql|prisma|md)$/.test(name) && !/node_modules|generated|dist/.test(parentPath),
    ),
  )
  const cited = sources.flatMap(({ name, parentPath }) =>
    [...readFileSync(join(parentPath, name), 'utf8').matchAll(/\b[Rr]ules? (\d+)(?: and (\d+))?\b/g)].flatMap(
      ([, first, second]) => [Number(first), ...(second ? [Number(second)] : [])],
    ),
  )
  expect(cited.length).toBeGreaterThan(10)
  expect(cited.filter((number) => !known.has(number))).toEqual([])
})
