import { OF_THE_VEHICLE, type OperationKind, type TemplateStep } from '@clampclock/contracts'

export function isOfVehicle(kind: OperationKind): boolean {
  return OF_THE_VEHICLE.includes(kind)
}

export interface Placed {
  readonly id: string
  readonly kind: OperationKind
  readonly jointId: string | null
}

/**
 * The steps that a template adds to what a vehicle has already: those of the joint always, those of the vehicle where it
 * has none of that kind yet. A template without a joint leaves out what only a joint can have.
 */
export function stepsToAdd<Step extends Pick<TemplateStep, 'kind'>>(
  steps: readonly Step[],
  present: readonly Pick<Placed, 'kind'>[],
  hasJoint: boolean,
): Step[] {
  const have = new Set(present.map(({ kind }) => kind))
  return steps.filter(({ kind }) => (isOfVehicle(kind) ? !have.has(kind) : hasJoint))
}

/** Joints one after the other as they were added, then the vehicle in the order of the kinds. */
export function inOrder<Item extends Placed>(items: readonly Item[]): Item[] {
  return [
    ...items.filter(({ kind }) => !isOfVehicle(kind)),
    ...items
      .filter(({ kind }) => isOfVehicle(kind))
      .toSorted((a, b) => OF_THE_VEHICLE.indexOf(a.kind) - OF_THE_VEHICLE.indexOf(b.kind)),
  ]
}

/** `before` ends before `after` starts. `noWait`: `after` starts at that very minute. */
export interface Precedence {
  readonly before: string
  readonly after: string
  readonly noWait: boolean
}

/**
 * What must wait for what on one vehicle. Each joint is a chain, and joints may be worked on side by side; a cure begins
 * the moment its clamps are on. What is done on the vehicle as a whole waits for all its joints, and is a chain too.
 */
export function precedences(operations: readonly Placed[]): Precedence[] {
  const found: Precedence[] = []
  const chains = new Map<string | null, Placed>()
  let vehicle: Placed | undefined
  for (const operation of inOrder(operations)) {
    const after = operation.id
    if (!isOfVehicle(operation.kind)) {
      const before = chains.get(operation.jointId)
      if (before) found.push({ before: before.id, after, noWait: operation.kind === 'cure' })
      chains.set(operation.jointId, operation)
    } else {
      const ends = vehicle ? [vehicle] : [...chains.values()]
      found.push(...ends.map((before) => ({ before: before.id, after, noWait: false })))
      vehicle = operation
    }
  }
  return found
}
