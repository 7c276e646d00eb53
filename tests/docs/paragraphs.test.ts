import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'

const MOST_WORDS = 80
const GUIDES = ['technician', 'parts-manager', 'scheduler', 'operations', 'api', 'honesty', 'rules']

/** Each paragraph and each step of a list, without code and tables. */
function paragraphs(text: string): string[] {
  return text
    .replaceAll(/```[\s\S]*?```/g, '')
    .split(/\n\s*\n|\n(?=\s*(?:[-*]|\d+\.)\s)/)
    .map((part) => part.trim())
    .filter((part) => part !== '' && !/^[#|]/.test(part))
}

/** An address behind a link is read by nobody. */
const wordsOf = (paragraph: string) => paragraph.replaceAll(/\]\([^)]*\)/g, ']').split(/\s+/).length

it.each(GUIDES)('docs/%s.md has no paragraph that is read twice for its length', (name) => {
  const text = readFileSync(fileURLToPath(new URL(`../../docs/${name}.md`, import.meta.url)), 'utf8')
  const all = paragraphs(text)
  expect(all.length).toBeGreaterThan(5)
  const long = all.filter((paragraph) => wordsOf(paragraph) > MOST_WORDS)
  expect(long.map((paragraph) => `${wordsOf(paragraph)} words: ${paragraph.slice(0, 60)} …`)).toEqual([])
})
