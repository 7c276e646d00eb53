import { useSyncExternalStore } from 'react'
import { serverNowMs } from '../api/server-clock.ts'

/** One ticker for the whole page: every countdown turns over at the same instant. */
const watchers = new Set<() => void>()
let nowMs = serverNowMs()
let timer: ReturnType<typeof setInterval> | undefined

function tick() {
  nowMs = serverNowMs()
  for (const watcher of watchers) watcher()
}

function watch(watcher: () => void): () => void {
  watchers.add(watcher)
  if (timer === undefined) {
    nowMs = serverNowMs()
    timer = setInterval(tick, 1000)
  }
  return () => {
    watchers.delete(watcher)
    if (watchers.size === 0) {
      clearInterval(timer)
      timer = undefined
    }
  }
}

/** Now on the server's clock in ms, once per second; pass 60_000 where minutes will do, to render less often. */
export function useNow(stepMs = 1000): number {
  return useSyncExternalStore(watch, () => nowMs - (nowMs % stepMs))
}
