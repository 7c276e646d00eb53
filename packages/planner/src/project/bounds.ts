import type { Project } from './instance.ts'

/** Longest path to the start (heads) and from the end (tails) of each activity, resources left aside. */
export function headsAndTails(project: Project): {
  heads: Int32Array
  tails: Int32Array
  criticalPath: number
} {
  const { n, duration, predecessors, successors, topological, release } = project
  const heads = Int32Array.from(release)
  const tails = new Int32Array(n)
  let criticalPath = 0
  for (const i of topological)
    for (const p of predecessors[i]!) heads[i] = Math.max(heads[i]!, heads[p]! + duration[p]!)
  for (const i of topological.toReversed()) {
    for (const s of successors[i]!) tails[i] = Math.max(tails[i]!, tails[s]! + duration[s]!)
    criticalPath = Math.max(criticalPath, heads[i]! + duration[i]! + tails[i]!)
  }
  return { heads, tails, criticalPath }
}

/**
 * Makespan bound. A trial makespan is refuted, and the bound raised past it, when some interval [from, until) must
 * hold more work than a resource offers (energetic reasoning; Baptiste, Le Pape & Nuijten 1999,
 * doi 10.1023/A:1018995000688), or when activities that pairwise can't overlap form a path longer than it (from each
 * activity, greedily: Mingozzi et al. 1998, LB3 by node packing, doi 10.1287/mnsc.44.5.714).
 */
export function projectBound(project: Project): number {
  const { heads, tails, criticalPath } = headsAndTails(project)
  let low = Math.max(criticalPath, packingBound(project, heads, tails))
  if (!energyRefutes(project, heads, tails, low)) return low
  // What refutes a makespan refutes every shorter one, so bisection finds the last refuted.
  let high = Math.max(project.horizon, low + 1)
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (energyRefutes(project, heads, tails, middle)) low = middle
    else high = middle
  }
  return high
}

function energyRefutes(project: Project, heads: Int32Array, tails: Int32Array, makespan: number): boolean {
  const { n, resources, duration, demand, capacity } = project
  const froms = [...new Set(heads)]
  const untils = [...new Set(Array.from(tails, (tail) => makespan - tail))]
  for (const from of froms) {
    for (const until of untils) {
      if (until <= from) continue
      const work = new Float64Array(resources)
      for (let i = 0; i < n; i++) {
        // Least part inside the interval, shifted fully left or fully right.
        const left = heads[i]! + duration[i]! - from
        const right = until - (makespan - tails[i]! - duration[i]!)
        const inside = Math.min(left, right, duration[i]!, until - from)
        if (inside <= 0) continue
        for (let k = 0; k < resources; k++) work[k]! += inside * demand[i * resources + k]!
      }
      for (let k = 0; k < resources; k++) if (work[k]! > capacity[k]! * (until - from)) return true
    }
  }
  return false
}

/** Greedy sets of activities of which no two can run at once: their durations add up. */
function packingBound(project: Project, heads: Int32Array, tails: Int32Array): number {
  const { n, resources, duration, demand, capacity, successors, topological } = project
  const follows = Array.from({ length: n }, () => new Uint8Array(n))
  for (const i of topological.toReversed()) {
    for (const s of successors[i]!) {
      follows[i]![s] = 1
      for (let x = 0; x < n; x++) if (follows[s]![x]) follows[i]![x] = 1
    }
  }
  const apart = (i: number, j: number): boolean => {
    if (follows[i]![j] || follows[j]![i]) return true
    for (let k = 0; k < resources; k++) {
      if (demand[i * resources + k]! + demand[j * resources + k]! > capacity[k]!) return true
    }
    return false
  }
  const degrees = Array.from(
    { length: n },
    (_, i) => Array.from({ length: n }, (_x, j) => j).filter((j) => j !== i && apart(i, j)).length,
  )
  const candidates = Array.from({ length: n }, (_, i) => i)
    .filter((i) => duration[i]! > 0)
    .sort((a, b) => degrees[b]! * duration[b]! - degrees[a]! * duration[a]! || a - b)
  let bound = 0
  for (const first of candidates) {
    const set = [first]
    for (const i of candidates) if (i !== first && set.every((other) => apart(i, other))) set.push(i)
    const head = Math.min(...set.map((i) => heads[i]!))
    const tail = Math.min(...set.map((i) => tails[i]!))
    bound = Math.max(bound, head + set.reduce((sum, i) => sum + duration[i]!, 0) + tail)
  }
  return bound
}
