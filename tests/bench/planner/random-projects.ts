import { generator, wholeNumbers } from './generator.ts'
import { projectInput, type Instance } from './read-instance.ts'

/**
 * Random projects by the parameters of Kolisch, Sprecher & Drexl 1995 (doi 10.1287/mnsc.41.10.1693): network complexity
 * (arcs an activity, none of them redundant), resource factor (share of the four resources that an activity needs) and
 * resource strength (capacity between the largest single demand, 0, and the peak of the earliest schedule, 1).
 */
function randomProject(
  count: number,
  complexity: number,
  factor: number,
  strength: number,
  seed: number,
): unknown {
  const draw = generator(seed)
  const between = wholeNumbers(draw)
  const last = count + 1
  const successors = Array.from({ length: count + 2 }, () => new Set<number>())
  const leadsTo = Array.from({ length: count + 2 }, () => new Set<number>())
  const leadsFrom = Array.from({ length: count + 2 }, () => new Set<number>())
  let arcs = 0
  const link = (a: number, b: number): void => {
    successors[a]!.add(b)
    arcs++
    for (const x of [a, ...leadsFrom[a]!])
      for (const y of [b, ...leadsTo[b]!]) {
        leadsTo[x]!.add(y)
        leadsFrom[y]!.add(x)
      }
  }
  // Three activities at the start and three at the end, as in PSPLIB; a predecessor and a successor for all others.
  for (let i = 1; i <= 3; i++) link(0, i)
  for (let i = 4; i <= count; i++) link(between(Math.max(1, i - 12), Math.min(i - 1, count - 3)), i)
  for (let i = count - 3; i > 3; i--)
    if (successors[i]!.size === 0) {
      const to = between(i + 1, Math.min(count, i + 12))
      if (!leadsTo[i]!.has(to)) link(i, to)
    }
  for (let i = 1; i <= count; i++) if (successors[i]!.size === 0) link(i, last)
  for (let tries = 0; arcs < complexity * (count + 2) && tries < 100 * count; tries++) {
    const a = between(1, count - 4)
    const b = between(a + 1, Math.min(count, a + 20))
    const isRedundant =
      leadsTo[a]!.has(b) ||
      [a, ...leadsFrom[a]!].some((x) => [b, ...leadsTo[b]!].some((y) => successors[x]!.has(y)))
    if (!isRedundant) link(a, b)
  }
  const activities = successors.map((to, i) => {
    const isReal = i > 0 && i < last
    const needs = Array.from({ length: 4 }, () => (isReal && draw() < factor ? between(1, 10) : 0))
    if (isReal && !needs.some((units) => units > 0)) needs[between(0, 3)] = between(1, 10)
    return {
      successors: [...to].map((k) => k + 1),
      duration: isReal ? between(1, 10) : 0,
      demands: needs,
    }
  })
  const start: number[] = activities.map(() => 0)
  // Arcs go from lower to higher numbers, except to the last.
  activities.forEach(({ successors: to, duration }, i) => {
    for (const k of to) start[k - 1] = Math.max(start[k - 1]!, start[i]! + duration)
  })
  const capacities = Array.from({ length: 4 }, (_, k) => k).map((k) => {
    const least = Math.max(...activities.map(({ demands }) => demands[k]!))
    const peak = Math.max(
      ...activities.map((_, i) =>
        activities.reduce(
          (sum, { demands, duration }, other) =>
            start[other]! <= start[i]! && start[i]! < start[other]! + duration ? sum + demands[k]! : sum,
          0,
        ),
      ),
    )
    return least + Math.round(strength * Math.max(0, peak - least))
  })
  return projectInput(activities, capacities)
}

/** Eighteen projects of so many activities, over the grid of the three parameters. */
export function randomProjects(count: number, seed: number): Instance[] {
  return [1.5, 1.8, 2.1].flatMap((complexity) =>
    [0.25, 0.5, 1].flatMap((factor) =>
      [0.2, 0.5].map((strength) => ({
        name: `n${count}-c${complexity}-f${factor}-s${strength}`,
        kind: 'project' as const,
        input: randomProject(
          count,
          complexity,
          factor,
          strength,
          seed * 7919 + Math.round(1000 * complexity + 100 * factor + 10 * strength),
        ),
      })),
    ),
  )
}
