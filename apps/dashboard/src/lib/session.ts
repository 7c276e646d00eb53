import { useSyncExternalStore } from 'react'

/** Whether the sign-in ran out while somebody was at work: asked for again over the screen, which stays as it is. */
let isOver = false
const watchers = new Set<() => void>()

export function setSessionOver(over: boolean): void {
  isOver = over
  for (const watcher of watchers) watcher()
}

export function useSessionOver(): boolean {
  return useSyncExternalStore(
    (watcher) => {
      watchers.add(watcher)
      return () => watchers.delete(watcher)
    },
    () => isOver,
  )
}
