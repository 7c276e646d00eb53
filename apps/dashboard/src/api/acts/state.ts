import { useSyncExternalStore } from 'react'
import type { Act } from './act.ts'

/** What the device keeps, as this tab last read it. */
export interface Acts {
  readonly items: readonly Act[]
  /** It has been read: until then nobody knows what waits. */
  readonly isKnown: boolean
}

let state: Acts = { items: [], isKnown: false }
const watchers = new Set<() => void>()

export const acts = {
  get: () => state,
  set: (next: Acts) => {
    state = next
    for (const watcher of watchers) watcher()
  },
  subscribe: (watcher: () => void) => {
    watchers.add(watcher)
    return () => watchers.delete(watcher)
  },
}

export function useActs(): Acts {
  return useSyncExternalStore(acts.subscribe, acts.get)
}
