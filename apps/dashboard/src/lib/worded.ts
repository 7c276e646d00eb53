import { say, type MessageKey } from '@clampclock/messages'
import { reader } from './reader.ts'

/** A table of words: each is looked up when it is read, in the language of whoever reads then. */
export function worded<Code extends string>(
  keys: Readonly<Record<Code, MessageKey>>,
): Readonly<Record<Code, string>> {
  const table = {} as Record<Code, string>
  for (const [code, key] of Object.entries<MessageKey>(keys))
    Object.defineProperty(table, code, {
      enumerable: true,
      get: () => say(reader(), { code: key, params: {} }),
    })
  return table
}
