import { useSyncExternalStore } from 'react'
import { serverNow, type ServerNow } from '../api/server-clock.ts'

/** One ticker for the whole page: every countdown turns over at the same instant. */
const watchers = new Set<() => void>()
let now = serverNow()
let timer: ReturnType<typeof setInterval> | undefined

function tick() {
  now = serverNow()
  for (const watcher of watchers) watcher()
}

function watch(watcher: () => void): () => void {
  watchers.add(watcher)
  if (timer === undefined) {
    now = serverNow()
    timer = setInterval(tick, 1000)
    document.addEventListener('visibilitychange', tick)
  }
  return () => {
    watchers.delete(watcher)
    if (watchers.size === 0) {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
      timer = undefined
    }
  }
}

/** For what has to happen at an instant rather than be shown: called once per second. @returns how to end it. */
export function eachSecond(look: (now: ServerNow) => void): () => void {
  return watch(() => look(now))
}

/** Now on the server's clock in ms, once per second; pass 60_000 where minutes will do, to render less often. */
export function useNow(stepMs = 1000): number {
  return useSyncExternalStore(watch, () => now.expectedMs - (now.expectedMs % stepMs))
}

/** Now on the server's clock with its bounds, once per second: for what must not come too early, or too late. */
export function useServerNow(): ServerNow {
  return useSyncExternalStore(watch, () => now)
}
