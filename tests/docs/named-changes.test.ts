import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { NAMED_CHANGES } from '../mutation/named-changes.ts'

/** Who rewrites such a line writes the fault anew, else it is tried no more without anybody noticing. */
describe('the faults that are tried by name', () => {
  it.each(NAMED_CHANGES.map(({ name, file, from }) => [name, file, from] as const))(
    '%s: the line is there, once',
    (_, file, from) => {
      expect(readFileSync(file, 'utf8').split(from)).toHaveLength(2)
    },
  )
})
