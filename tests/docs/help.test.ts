import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { TERMS } from '../../apps/dashboard/src/ui/help/terms.ts'
import { patterns } from '../../packages/messages/src/catalogue/en/help.ts'

it('explains each term as docs/words.md does', () => {
  const words = readFileSync(fileURLToPath(new URL('../../docs/words.md', import.meta.url)), 'utf8')
  const meanings = new Map(
    [...words.matchAll(/^\| ([^|]+) \| ([^|]+) \| [^|]+ \|$/gm)].map(([, term = '', meaning = '']) => [
      term.toLowerCase(),
      meaning.toLowerCase(),
    ]),
  )
  for (const term of TERMS) {
    const said = patterns[`help.${term}.meaning`].toLowerCase()
    expect([term, `${meanings.get(patterns[`help.${term}.term`].toLowerCase()) ?? 'no such term'}.`]).toEqual(
      [term, said],
    )
  }
})
