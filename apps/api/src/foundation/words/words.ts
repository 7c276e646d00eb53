import { say, type Message, type Reader, type Told } from '@clampclock/messages'
import { NOBODY } from './reader.ts'

/** What a sentence says to a reader; text that somebody wrote stays as it is. */
export function told(reader: Reader, sentence: Told): string {
  return typeof sentence === 'string' ? sentence : say(reader, sentence)
}

/** For the log, the record and programs. */
export function inEnglish(sentence: Told): string {
  return told(NOBODY, sentence)
}

/**
 * An answer for one reader: each message in it is put into words, and what it says as data goes beside it, in `said` by
 * the name of its field. What has no message in it is answered as it is.
 */
export function inWords<Answer>(reader: Reader, answer: Answer): Answer {
  return worded(reader, answer) as Answer
}

function worded(reader: Reader, value: unknown): unknown {
  if (isMessage(value)) return say(reader, value)
  if (Array.isArray(value)) {
    const items = value.map((each) => worded(reader, each))
    return items.some((each, i) => each !== value[i]) ? items : value
  }
  if (!isPlain(value)) return value
  let copy: Record<string, unknown> | undefined
  let said: Record<string, Message | (Message | null)[]> | undefined
  for (const [name, each] of Object.entries(value)) {
    const words = worded(reader, each)
    if (words === each) continue
    copy ??= { ...value }
    copy[name] = words
    if (isMessage(each)) said = { ...said, [name]: each }
    else if (Array.isArray(each) && each.some(isMessage))
      said = { ...said, [name]: each.map((one: unknown) => (isMessage(one) ? one : null)) }
  }
  return said === undefined ? (copy ?? value) : { ...copy, said }
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (value === null || typeof value !== 'object') return false
  const prototype: unknown = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null
}

/** A code with its parameters and nothing else. */
function isMessage(value: unknown): value is Message {
  if (!isPlain(value) || typeof value['code'] !== 'string' || !isPlain(value['params'])) return false
  return Object.keys(value).length === 2
}

/** Whether two say the same: as the database gives them back, in whatever order. */
export function isSame(one: Told, other: Told): boolean {
  return canonical(one) === canonical(other)
}

function canonical(sentence: Told): string {
  return JSON.stringify(sentence, (_, value: unknown) =>
    isPlain(value)
      ? Object.fromEntries(Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  )
}
