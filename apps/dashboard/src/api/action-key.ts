import { newKey } from './client.ts'
import { isWorthRetrying } from './problem.ts'

interface Pending {
  readonly key: string
  readonly content: string
}

/**
 * The idempotency key of one action: the same while the same content is sent again after silence, a new one once
 * the service has given an answer or the content has changed.
 */
export function createActionKey(makeKey: () => string = newKey) {
  let pending: Pending | undefined
  return {
    keyFor(input: unknown): string {
      const content = JSON.stringify(input)
      if (pending?.content !== content) pending = { key: makeKey(), content }
      return pending.key
    },
    settled(error: unknown): void {
      if (error === null || !isWorthRetrying(error)) pending = undefined
    },
  }
}
