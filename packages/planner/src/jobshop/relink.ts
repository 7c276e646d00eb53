import type { Random } from '../search/random.ts'
import type { JobShop } from './instance.ts'
import { Selection } from './selection.ts'

/** A random topological order of the chains with random choices. */
export function randomSelection(shop: JobShop, random: Random): Selection {
  const result = new Selection(shop)
  const { n } = shop
  const tickets = new Int32Array(n)
  const firsts: number[] = []
  let filled = 0
  for (let i = 0; i < n; i++) {
    const from = shop.choiceFrom[i]!
    result.choose(i, from + random.below(shop.choiceFrom[i + 1]! - from))
    if (shop.before[i] !== n) continue
    firsts.push(i)
    for (let k = i; k !== n; k = shop.after[k]!) tickets[filled++] = firsts.length - 1
  }
  random.shuffle(tickets)
  const list = Array.from(tickets, (chain) => {
    const i = firsts[chain]!
    firsts[chain] = shop.after[i]!
    return i
  })
  result.sequence(list)
  result.evaluate()
  return result
}

/**
 * Dispatching: always the operation that can end first among those ready, ties and some noise at random
 * (Giffler & Thompson's conflict set, 1960, doi 10.1287/opre.8.4.487), most work remaining first.
 */
export function dispatchedSelection(shop: JobShop, random: Random, noise: number): Selection {
  const result = new Selection(shop)
  const { n } = shop
  const left = new Float64Array(n + 1)
  for (let i = 0; i < n; i++) {
    if (shop.after[i] !== n) continue
    for (let k = i; k !== n; k = shop.before[k]!)
      left[k] = shop.choiceDuration[shop.choiceFrom[k]!]! + left[shop.after[k]!]!
  }
  const free = new Int32Array(shop.machines)
  const ready: number[] = []
  const from = new Int32Array(n)
  for (let i = 0; i < n; i++) {
    from[i] = shop.release[i]!
    if (shop.before[i] === n) ready.push(i)
  }
  const list: number[] = []
  while (ready.length > 0) {
    let end = Infinity
    for (const i of ready) {
      let own = Infinity
      for (let c = shop.choiceFrom[i]!; c < shop.choiceFrom[i + 1]!; c++) {
        const until = Math.max(from[i]!, free[shop.choiceMachine[c]!]!) + shop.choiceDuration[c]!
        if (until < own || (until === own && random.below(2) === 0)) {
          own = until
          result.choose(i, c)
        }
      }
      end = Math.min(end, own)
    }
    const conflict = ready.filter(
      (i) => Math.max(from[i]!, free[result.machine[i]!]!) < end || result.duration[i] === 0,
    )
    let pick = conflict[0]!
    let score = -1
    for (const i of conflict) {
      const value = left[i]! * (1 + noise * random.unit())
      if (value > score) {
        score = value
        pick = i
      }
    }
    const until = Math.max(from[pick]!, free[result.machine[pick]!]!) + result.duration[pick]!
    free[result.machine[pick]!] = until
    ready.splice(ready.indexOf(pick), 1)
    const follow = shop.after[pick]!
    if (follow !== n) {
      from[follow] = Math.max(from[follow]!, until)
      ready.push(follow)
    }
    list.push(pick)
  }
  result.sequence(list)
  result.evaluate()
  return result
}

/**
 * A selection on the way from one parent to the other (path relinking, Peng, Lu & Cheng 2015): operations sorted by
 * a mix of their ranks in both parents' topological orders. What both parents order alike stays so, hence the mix
 * never makes a cycle and needs no repair. A choice of machine comes from either parent.
 */
export function relink(a: Selection, b: Selection, share: number, random: Random): Selection {
  const { shop } = a
  const child = new Selection(shop)
  const key = new Float64Array(shop.n)
  for (let k = 0; k < shop.n; k++) {
    key[a.order[k]!]! += (1 - share) * k
    key[b.order[k]!]! += share * k
  }
  for (let i = 0; i < shop.n; i++) child.choose(i, random.unit() < share ? b.choice[i]! : a.choice[i]!)
  child.sequence(Array.from({ length: shop.n }, (_, i) => i).sort((x, y) => key[x]! - key[y]! || x - y))
  child.evaluate()
  return child
}

/** Pairs on one machine that the two order differently, plus operations on different machines. */
export function distance(a: Selection, b: Selection): number {
  const { n, machines } = a.shop
  const rank = new Int32Array(n)
  for (let k = 0; k < n; k++) rank[b.order[k]!] = k
  const lists: number[][] = Array.from({ length: machines }, () => [])
  let differences = 0
  for (let k = 0; k < n; k++) {
    const i = a.order[k]!
    if (a.machine[i] !== b.machine[i]) {
      differences++
      continue
    }
    const list = lists[a.machine[i]!]!
    for (const other of list) if (rank[other]! > rank[i]!) differences++
    list.push(i)
  }
  return differences
}
