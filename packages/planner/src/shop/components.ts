import type { CompiledHold, CompiledLag, Component, Group } from './compiled.ts'
import { unlimited } from './compiled.ts'

type Lags = readonly (readonly CompiledLag[])[]

/**
 * Splits the tasks into components and groups. A component is a strongly connected part of the graph that has an arc
 * forward for each lag and one back for each maximum lag and hold: its tasks can't be placed one by one for good.
 */
export function components(
  jobCount: number,
  jobOf: Int32Array,
  lagsIn: Lags,
  lagsOut: Lags,
  holds: readonly CompiledHold[],
  isFixed: Uint8Array,
): { groups: Group[]; groupOf: Int32Array } {
  const n = jobOf.length
  const arcs = lagsOut.map((list) => list.map((lag) => lag.other))
  lagsIn.forEach((list, i) => {
    for (const lag of list) if (lag.max !== unlimited) arcs[i]!.push(lag.other)
  })
  for (const hold of holds) if (hold.from !== hold.until) arcs[hold.until]!.push(hold.from)

  const root = new Int32Array(jobCount).map((_, j) => j)
  const find = (j: number): number => {
    let top = j
    while (root[top] !== top) top = root[top]!
    root[j] = top
    return top
  }
  const join = (a: number, b: number): void => {
    root[find(jobOf[a]!)] = find(jobOf[b]!)
  }
  lagsOut.forEach((list, i) => list.forEach((lag) => join(i, lag.other)))
  for (const hold of holds) join(hold.from, hold.until)

  const topological = sortTasks(n, lagsIn, lagsOut)
  const position = new Int32Array(n)
  topological.forEach((task, at) => (position[task] = at))
  const parts = stronglyConnected(arcs)
  const partOf = new Int32Array(n)
  parts.forEach((part, p) => part.forEach((i) => (partOf[i] = p)))
  const heldIn: number[][] = parts.map(() => [])
  holds.forEach((hold, h) => {
    if (partOf[hold.from] === partOf[hold.until]) heldIn[partOf[hold.from]!]!.push(h)
  })
  // Tarjan yields parts after everything they lead to, so the reverse respects precedence.
  const ordered = parts
    .map((part, p): Component & { group: number } => ({
      tasks: new Int32Array(part.length === 1 ? part : part.sort((x, y) => position[x]! - position[y]!)),
      holds: new Int32Array(heldIn[p]!),
      group: find(jobOf[part[0]!]!),
    }))
    .toReversed()
  const roots = [...new Set(root.map((_, j) => find(j)))]
  const members = new Map(roots.map((top) => [top, { jobs: [] as number[], components: [] as Component[] }]))
  for (let j = 0; j < jobCount; j++) members.get(find(j))!.jobs.push(j)
  for (const { group, ...component } of ordered) members.get(group)!.components.push(component)
  const groupOf = new Int32Array(n)
  const groups = roots.map((top, g): Group => {
    const { jobs, components: own } = members.get(top)!
    const tasks = new Int32Array(own.flatMap((component) => [...component.tasks]))
    for (const task of tasks) groupOf[task] = g
    return {
      jobs: new Int32Array(jobs),
      tasks,
      holds: new Int32Array(own.flatMap((component) => [...component.holds])),
      components: own,
      isBegun: tasks.some((task) => isFixed[task] === 1),
    }
  })
  return { groups, groupOf }
}

/**
 * For each task that `asks` the holds that lie over it: it follows the first task of the hold and comes before the
 * last. The others, which are most, get an empty list.
 */
export function coveringHolds(
  lagsIn: Lags,
  lagsOut: Lags,
  holds: readonly CompiledHold[],
  holdsFrom: readonly Int32Array[],
  asks: readonly boolean[],
): Int32Array[] {
  const isBefore = new Int32Array(asks.length).fill(-1)
  const isAfter = new Int32Array(asks.length).fill(-1)
  const none = new Int32Array(0)
  return asks.map((isAsked, i) => {
    if (!isAsked) return none
    reach(i, lagsOut, isAfter)
    const over: number[] = []
    for (const first of reach(i, lagsIn, isBefore)) {
      for (const h of holdsFrom[first]!) {
        const { until, untilEnd } = holds[h]!
        if (isAfter[until] === i && (until !== i || untilEnd)) over.push(h)
      }
    }
    return new Int32Array(over).sort()
  })
}

/** Task i and all that its lags lead to, each marked with i. */
function reach(i: number, lags: Lags, marks: Int32Array): number[] {
  const found = [i]
  marks[i] = i
  for (const at of found) {
    for (const { other } of lags[at]!) {
      if (marks[other] === i) continue
      marks[other] = i
      found.push(other)
    }
  }
  return found
}

function sortTasks(n: number, lagsIn: Lags, lagsOut: Lags): number[] {
  const degree = lagsIn.map((list) => list.length)
  const order = Array.from({ length: n }, (_, i) => i).filter((i) => degree[i] === 0)
  for (const i of order) for (const lag of lagsOut[i]!) if (--degree[lag.other]! === 0) order.push(lag.other)
  return order
}

/** Tarjan's algorithm (1972, doi 10.1137/0201010), without recursion: a project may be a chain of thousands. */
function stronglyConnected(arcs: readonly (readonly number[])[]): number[][] {
  const n = arcs.length
  const number = new Int32Array(n).fill(-1)
  const low = new Int32Array(n)
  const onStack = new Uint8Array(n)
  const stack: number[] = []
  const parts: number[][] = []
  let counter = 0
  for (let first = 0; first < n; first++) {
    if (number[first] !== -1) continue
    const calls: { node: number; next: number; list: readonly number[] }[] = []
    const enter = (node: number): void => {
      number[node] = low[node] = counter++
      stack.push(node)
      onStack[node] = 1
      calls.push({ node, next: 0, list: arcs[node]! })
    }
    enter(first)
    while (calls.length > 0) {
      const call = calls.at(-1)!
      if (call.next < call.list.length) {
        const next = call.list[call.next++]!
        if (number[next] === -1) enter(next)
        else if (onStack[next]) low[call.node] = Math.min(low[call.node]!, number[next]!)
        continue
      }
      calls.pop()
      const parent = calls.at(-1)
      if (parent) low[parent.node] = Math.min(low[parent.node]!, low[call.node]!)
      if (low[call.node] !== number[call.node]) continue
      const part: number[] = []
      let node: number
      do {
        node = stack.pop()!
        onStack[node] = 0
        part.push(node)
      } while (node !== call.node)
      parts.push(part)
    }
  }
  return parts
}
