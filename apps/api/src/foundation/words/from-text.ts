import { message, type Message, type Told } from '@clampclock/messages'

/** A sentence of a package or library that knows no catalogue, and what it says as data. */
export type Rule = readonly [pattern: RegExp, build: (...groups: string[]) => Message]

/** Text as data by the first rule that fits it; text that no rule knows is told as it is. */
export function asData(text: string, rules: readonly Rule[]): Message {
  for (const [pattern, build] of rules) {
    const found = pattern.exec(text)
    if (found) return build(...found.slice(1))
  }
  return asTold(text)
}

/** What was kept as text, or comes from a library: everybody is told it as it is. */
export function asTold(told: Told): Message {
  return typeof told === 'string' ? message('problem.asTold', { text: told }) : told
}
