import type { OperationFact, ResourceFact, ShopFacts } from './facts.ts'

/** Technicians who can do it. */
export function eligible({ resources }: ShopFacts, { skill }: Pick<OperationFact, 'skill'>): ResourceFact[] {
  return resources.filter(
    ({ kind, skills, isActive }) =>
      isActive && kind === 'technician' && (skill === null || skills.includes(skill)),
  )
}

/**
 * Bays or ovens that have what each of the operations needs. Where something cures the warmest bay comes first: the planner
 * takes the first of those that fit equally well.
 */
export function placesFor(
  { resources, forecasts }: ShopFacts,
  operations: readonly OperationFact[],
): ResourceFact[] {
  const needed = operations.flatMap(({ attributes }) => attributes)
  const fitting = resources.filter(
    ({ kind, attributes, isActive }) =>
      isActive && kind === operations[0]!.place && needed.every((each) => attributes.includes(each)),
  )
  if (!operations.some(({ kind }) => kind === 'cure')) return fitting
  const warmth = new Map(fitting.map(({ id }) => [id, meanLowC(forecasts.get(id) ?? [])]))
  return fitting.toSorted((a, b) => warmth.get(b.id)! - warmth.get(a.id)!)
}

function meanLowC(forecast: readonly { readonly lowC: number }[]): number {
  if (forecast.length === 0) return -1000
  return forecast.reduce((sum, { lowC }) => sum + lowC, 0) / forecast.length
}

/** Operations in a row at one kind of place. */
export function segmentsOf(operations: readonly OperationFact[]): OperationFact[][] {
  const segments: OperationFact[][] = []
  for (const operation of operations) {
    const last = segments.at(-1)
    if (last?.[0]!.place === operation.place) last.push(operation)
    else segments.push([operation])
  }
  return segments
}
