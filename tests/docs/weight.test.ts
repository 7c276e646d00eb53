import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const dist = at('apps/dashboard/dist/')

interface Built {
  readonly file: string
  readonly css?: readonly string[]
  readonly imports?: readonly string[]
}

/**
 * What a page may weigh before it shows anything: files, and kB of scripts as they are sent, the English words among them (brotli, 1 kB = 1000 B).
 * Bytes and not seconds: they are the same on every machine. A little room, and no more, is left above what it is.
 */
const BUDGETS = [
  { screen: 'overview/overview', files: 10, scriptKB: 165, styleKB: 19 },
  { screen: 'job/job', files: 12, scriptKB: 189, styleKB: 20 },
  { screen: 'bays/bay-board', files: 12, scriptKB: 180, styleKB: 20 },
  { screen: 'plan/plan', files: 10, scriptKB: 173, styleKB: 20 },
  { screen: 'schedule/schedule', files: 10, scriptKB: 166, styleKB: 19 },
  { screen: 'stock/stock', files: 14, scriptKB: 170, styleKB: 20 },
  { screen: 'repairs/repairs', files: 10, scriptKB: 165, styleKB: 19 },
  { screen: 'my-work/my-work', files: 12, scriptKB: 179, styleKB: 19 },
] as const

describe('the built dashboard', () => {
  let built: Readonly<Record<string, Built>>
  beforeAll(() => {
    const manifest = `${dist}.vite/manifest.json`
    if (!existsSync(manifest)) throw new Error('The dashboard is not built: run `npm run build` first')
    built = JSON.parse(readFileSync(manifest, 'utf8')) as Record<string, Built>
  })

  it.each(BUDGETS)('opens $screen within its budget', ({ screen, files, scriptKB, styleKB }) => {
    const parts = new Set<string>()
    const add = (name: string) => {
      if (parts.has(name)) return
      parts.add(name)
      for (const each of built[name]!.imports ?? []) add(each)
    }
    add('index.html')
    add(`src/screens/${screen}-screen.tsx`)
    add('../../packages/messages/src/everywhere/en.ts')
    add(`../../packages/messages/src/catalogue/en/${screen.split('/')[0]}.ts`)
    const scripts = new Set([...parts].map((name) => built[name]!.file))
    const styles = new Set([...parts].flatMap((name) => built[name]!.css ?? []))
    const kB = (names: Iterable<string>) =>
      [...names].reduce((sum, name) => sum + readFileSync(`${dist}${name}.br`).length, 0) / 1000
    expect(scripts.size + styles.size).toBeLessThanOrEqual(files)
    expect(kB(scripts)).toBeLessThanOrEqual(scriptKB)
    expect(kB(styles)).toBeLessThanOrEqual(styleKB)
  })

  it('names no message by more than a short key', () => {
    const scripts = textsOf('.js')
    for (const key of ['job.addPanelTemperature', 'features.careful', 'stock.receive'])
      expect(scripts.filter((script) => script.includes(key))).toEqual([])
  })

  it('sends no schemas, and no other library for dates', () => {
    for (const script of textsOf('.js')) {
      expect(script).not.toMatch(/ZodError|\$ZodType/)
      expect(script).not.toContain('Invalid DateTime')
    }
  })

  it('has the styles of each part of the component library that it uses, and of no other', () => {
    const all = readFileSync(at('node_modules/@mantine/core/styles.css'), 'utf8')
    const known = new Set(classesOf(all))
    const used = new Set(textsOf('.js').flatMap(classesOf))
    const styled = new Set(textsOf('.css').flatMap(classesOf))
    expect([...used].filter((name) => known.has(name) && !styled.has(name))).toEqual([])
    const imported = readFileSync(at('apps/dashboard/src/app/mantine.css'), 'utf8')
    const idle = [...imported.matchAll(/styles\/(\w+)\.css/g)].filter(([, part = '']) => {
      const names = classesOf(readFileSync(at(`node_modules/@mantine/core/styles/${part}.css`), 'utf8'))
      return names.length > 0 && !names.some((name) => used.has(name))
    })
    expect(idle.map(([, part]) => part)).toEqual([])
  })
})

function textsOf(ending: string): string[] {
  const names = readdirSync(`${dist}assets`).filter((name) => name.endsWith(ending))
  return names.map((name) => readFileSync(`${dist}assets/${name}`, 'utf8'))
}

/** The library names its classes by a hash. */
function classesOf(text: string): string[] {
  return [...text.matchAll(/\bm_[0-9a-f]{6,8}\b/g)].map(([name]) => name)
}
