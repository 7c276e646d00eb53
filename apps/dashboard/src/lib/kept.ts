import { useSyncExternalStore } from 'react'

/** A value that survives a reload of the page; how long the store says. */
export interface Kept<Value> {
  readonly get: () => Value
  readonly set: (change: (old: Value) => Value) => void
  readonly subscribe: (watcher: () => void) => () => void
}

export type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>

/** One for a key, whoever asks: what goes on behind a screen that was left writes to the same. */
const known = new Map<string, unknown>()

/** @param store this tab's own when left out: until it is emptied or the tab is closed. */
export function keptIn<Value>(key: string, empty: Value, store: Store = sessionStorage): Kept<Value> {
  const there = known.get(key) as Kept<Value> | undefined
  if (there !== undefined) return there
  const made = createKept(key, empty, store)
  known.set(key, made)
  return made
}

export function createKept<Value>(key: string, empty: Value, store: Store): Kept<Value> {
  let value = read(key, store) ?? empty
  const watchers = new Set<() => void>()
  return {
    get: () => value,
    set: (change) => {
      value = change(value)
      write(key, value, store)
      for (const watcher of watchers) watcher()
    },
    subscribe: (watcher) => {
      watchers.add(watcher)
      return () => watchers.delete(watcher)
    },
  }

  function read(from: string, of: Store): Value | undefined {
    try {
      const text = of.getItem(from)
      return text === null ? undefined : (JSON.parse(text) as Value)
    } catch {
      return undefined
    }
  }
}

/** Full or forbidden, the store keeps nothing over a reload; the page goes on with what it has. */
function write(key: string, value: unknown, store: Store): void {
  try {
    store.setItem(key, JSON.stringify(value))
  } catch {
    store.removeItem(key)
  }
}

export function useKept<Value>(kept: Kept<Value>): Value {
  return useSyncExternalStore(kept.subscribe, kept.get)
}
