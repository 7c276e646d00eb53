import type { ShopFacts } from './facts.ts'
import { translate, type Translated } from './translate.ts'

/** Orders that the plan leaves out though work on them has begun: what they stand on is taken all the same. */
function begunWithout({ orders }: ShopFacts, isPlanned: (orderId: string) => boolean): Set<string> {
  const begun = orders.filter(
    ({ operations, bonds }) =>
      bonds.length > 0 || operations.some(({ progress }) => progress.kind !== 'open'),
  )
  return new Set(begun.map(({ id }) => id).filter((id) => !isPlanned(id)))
}

/** Of a plan that is kept, by its operations: see `begunWithout`. */
export function begunBeside(facts: ShopFacts, operationIds: Iterable<string>): Set<string> {
  const planned = new Set(operationIds)
  const isPlanned = new Set(
    facts.orders.filter(({ operations }) => operations.some(({ id }) => planned.has(id))).map(({ id }) => id),
  )
  return begunWithout(facts, (id) => isPlanned.has(id))
}

/**
 * Solves a shop. What has begun and finds no place behind it is set aside with all that it holds, and the rest solved
 * again: the planner itself counts nothing of a job that it leaves out.
 */
export async function solveInTurn<
  Answer extends { readonly plan: { readonly unplannedJobs: readonly string[] } },
>(
  facts: ShopFacts,
  solve: (translated: Translated) => Promise<Answer>,
): Promise<{ readonly translated: Translated; readonly answer: Answer }> {
  const setAside = new Set<string>()
  for (;;) {
    const translated = translate(facts, setAside)
    const answer = await solve(translated)
    const left = new Set(answer.plan.unplannedJobs)
    const begun = begunWithout(facts, (id) => !left.has(id))
    if (begun.size === 0) return { translated, answer }
    for (const id of begun) setAside.add(id)
  }
}
