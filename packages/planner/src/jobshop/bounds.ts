import type { JobShop } from './instance.ts'

/**
 * Makespan bound: longest chain, and for each machine Jackson's preemptive schedule over heads and tails (Carlier
 * 1982, doi 10.1016/S0377-2217(82)80007-6) of the operations that can run nowhere else, each at its shortest.
 */
export function jobShopBound(shop: JobShop): number {
  const { n, before, after, release, choiceFrom, choiceMachine, choiceDuration } = shop
  const shortest = new Int32Array(n + 1)
  const onlyMachine = new Int32Array(n).fill(-1)
  for (let i = 0; i < n; i++) {
    shortest[i] = Math.min(...choiceDuration.subarray(choiceFrom[i]!, choiceFrom[i + 1]!))
    const machines = new Set(choiceMachine.subarray(choiceFrom[i]!, choiceFrom[i + 1]!))
    if (machines.size === 1) onlyMachine[i] = [...machines][0]!
  }
  const head = new Int32Array(n + 1)
  const tail = new Int32Array(n + 1)
  let bound = 0
  for (let first = 0; first < n; first++) {
    if (before[first] !== n) continue
    const chain: number[] = []
    for (let i = first; i !== n; i = after[i]!) {
      head[i] = Math.max(release[i]!, head[before[i]!]! + shortest[before[i]!]!)
      chain.push(i)
    }
    for (const i of chain.toReversed()) {
      tail[i] = tail[after[i]!]! + shortest[i]!
      bound = Math.max(bound, head[i]! + tail[i]!)
    }
  }
  // Work over machines, for shops where every operation can go anywhere.
  let total = 0
  for (let i = 0; i < n; i++) total += shortest[i]!
  bound = Math.max(bound, Math.ceil(total / shop.machines))
  for (let machine = 0; machine < shop.machines; machine++) {
    const list = Array.from({ length: n }, (_, i) => i).filter((i) => onlyMachine[i] === machine)
    bound = Math.max(
      bound,
      jacksonPreemptive(
        list.map((i) => ({ head: head[i]!, work: shortest[i]!, tail: tail[i]! - shortest[i]! })),
      ),
    )
  }
  return bound
}

/** Optimum of one machine with heads and tails when work may be interrupted: always serve the longest tail. */
export function jacksonPreemptive(items: readonly { head: number; work: number; tail: number }[]): number {
  const waiting = items.map((item) => ({ ...item })).toSorted((a, b) => a.head - b.head)
  const ready: { head: number; work: number; tail: number }[] = []
  let now = 0
  let bound = 0
  while (waiting.length > 0 || ready.length > 0) {
    if (ready.length === 0) now = Math.max(now, waiting[0]!.head)
    while (waiting.length > 0 && waiting[0]!.head <= now) ready.push(waiting.shift()!)
    const serve = ready.reduce((longest, item) => (item.tail > longest.tail ? item : longest))
    const until = Math.min(now + serve.work, waiting[0]?.head ?? Infinity)
    serve.work -= until - now
    now = until
    if (serve.work === 0) {
      ready.splice(ready.indexOf(serve), 1)
      bound = Math.max(bound, now + serve.tail)
    }
  }
  return bound
}
