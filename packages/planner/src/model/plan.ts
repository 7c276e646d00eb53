import type { ObjectiveTerm } from './problem.ts'

/** When and on what one task runs. `resources` names the resource of each demand of the mode, in order. */
export interface PlannedTask {
  readonly taskId: string
  readonly start: number
  readonly end: number
  readonly mode: number
  readonly resources: readonly string[]
  /** Whether it works on in the overtime of its resources' calendars; otherwise overtime is a break for it. */
  readonly overtime: boolean
}

/** Which resource is held from when until when. */
export interface PlannedHold {
  readonly holdId: string
  readonly resourceId: string
  readonly from: number
  readonly until: number
}

/** What starts when on what. Jobs that could not be placed are named, never dropped in silence. */
export interface Plan {
  readonly tasks: readonly PlannedTask[]
  readonly holds: readonly PlannedHold[]
  readonly unplannedJobs: readonly string[]
}

/** Value of each objective term, unweighted (`change` is priced by `Stability`, overtime by the resource). */
export type ObjectiveValues = Readonly<Record<ObjectiveTerm, number>>

/**
 * `optimal`: cost equals a proved lower bound. `feasible`: every rule is kept. `infeasible`: proved that no plan
 * exists. `incomplete`: some jobs found no place, and nothing proves that they can't.
 */
export type Status = 'optimal' | 'feasible' | 'infeasible' | 'incomplete'

export interface Result {
  readonly status: Status
  readonly plan: Plan
  readonly values: ObjectiveValues
  /** The objective's first level (lexicographic) or its weighted sum. */
  readonly cost: number
  /** Proved: no plan costs less. */
  readonly lowerBound: number
  /** (cost - lowerBound) / cost, 0 when both are 0, 1 while jobs are unplanned (cost then leaves them out). */
  readonly gap: number
  readonly iterations: number
  /** Passes of a schedule generation scheme, both directions, as the literature counts them. */
  readonly schedules: number
  readonly engine: string
}
