import type { Problem } from '../model/problem.ts'

/** For each task the holds between whose first and last task it lies. */
export function findHoldsOver(problem: Problem): Map<string, string[]> {
  const after = new Map<string, string[]>()
  const before = new Map<string, string[]>()
  for (const lag of problem.lags) {
    after.set(lag.from, [...(after.get(lag.from) ?? []), lag.to])
    before.set(lag.to, [...(before.get(lag.to) ?? []), lag.from])
  }
  const reach = (from: string, links: ReadonlyMap<string, string[]>): Set<string> => {
    const seen = new Set([from])
    for (const id of seen) for (const next of links.get(id) ?? []) seen.add(next)
    return seen
  }
  const over = new Map<string, string[]>()
  for (const hold of problem.holds) {
    const back = reach(hold.untilTask, before)
    for (const id of reach(hold.fromTask, after)) {
      if (id === hold.untilTask ? hold.until === 'end' : back.has(id))
        over.set(id, [...(over.get(id) ?? []), hold.id])
    }
  }
  return over
}
