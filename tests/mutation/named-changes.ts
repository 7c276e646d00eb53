import { readFileSync } from 'node:fs'

/** A fault that some tests must notice: one line of a file, which stands there exactly once, and what replaces it. */
export interface NamedChange {
  readonly name: string
  readonly file: string
  readonly from: string
  readonly to: string
  /** Of tests/vitest.config.ts. */
  readonly project: string
  readonly tests: readonly string[]
}

export const NAMED_CHANGES = JSON.parse(
  readFileSync(new URL('named-changes.json', import.meta.url), 'utf8'),
) as readonly NamedChange[]
