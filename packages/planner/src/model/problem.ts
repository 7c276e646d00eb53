/**
 * The nouns of a scheduling problem. All times are whole minutes from the origin of the horizon, all intervals
 * half-open `[from, until)`, all quantities whole numbers, so that results are the same on every machine.
 */

/** Half-open interval in minutes. */
export type Interval = readonly [from: number, until: number]

/**
 * How fast work gets done at each minute. A rate holds from its point to the next; the last one holds for ever.
 * A task that needs `work` units and starts at s ends at the least whole minute e with G(e) - G(s) >= work, where G
 * is the integral of the rate. G never falls, so a later start never ends earlier: earliest-start reasoning is exact.
 */
export interface RateProfile {
  readonly id: string
  /** First point at minute 0; `ratePerMinute` is a whole number of work units, 0 where nothing happens. */
  readonly points: readonly { readonly atMinute: number; readonly ratePerMinute: number }[]
}

/** When a resource works. Minutes outside `shifts` and `overtime` are breaks. */
export interface Calendar {
  readonly id: string
  readonly shifts: readonly Interval[]
  /** Also workable for tasks planned in overtime, at `Resource.overtimeCostPerMinute`. */
  readonly overtime: readonly Interval[]
}

/** A renewable resource: a bay, a technician, a counted set of clamps, an oven. */
export interface Resource {
  readonly id: string
  /** Units in use at one instant never exceed it. */
  readonly capacity: number
  readonly calendarId: string | null
  /** Nothing may overlap these, not even a task or hold that could wait out a break. */
  readonly unavailable: readonly Interval[]
  /** A batching machine: tasks overlap only when they start and end together and are of one family. */
  readonly batch: boolean
  /** Minutes needed between a task of one family and the next of another; capacity 1 only. */
  readonly setups: readonly {
    readonly fromFamily: string
    readonly toFamily: string
    readonly minutes: number
  }[]
  readonly overtimeCostPerMinute: number
}

/** Something promised as a whole: a vehicle, an order. */
export interface Job {
  readonly id: string
  /** No task of the job starts before it. */
  readonly releaseAt: number
  /** Being later costs `weight` a minute. */
  readonly dueAt: number | null
  /** Being later is forbidden. */
  readonly deadlineAt: number | null
  readonly weight: number
}

/** `units` of one resource out of `anyOf`, for as long as the task runs. */
export interface Demand {
  readonly anyOf: readonly string[]
  readonly units: number
}

/** One way of doing a task. */
export interface Mode {
  readonly work: number
  /** null: one unit of work a minute, so that `work` is the duration. */
  readonly profileId: string | null
  /** Overrides `profileId` when the task uses one of these resources, or one is held over it (bay temperature). */
  readonly profileByResource: Readonly<Record<string, string>>
  readonly demands: readonly Demand[]
}

/**
 * What a break in the calendar of a demanded resource does.
 * `pause`: work stops and goes on after it, the resources stay taken; the task starts in working time.
 * `forbid`: the task must lie between breaks. `ignore`: nothing (unattended work).
 */
export type BreakRule = 'pause' | 'forbid' | 'ignore'

/** Where a task stands that the plan may no longer move. */
export interface Fixed {
  readonly state: 'locked' | 'running' | 'done'
  readonly start: number
  /** null: follows from start, mode and profile. A running cure that was measured carries its own end. */
  readonly end: number | null
  readonly mode: number
  /** The resource taken by each demand of the mode, in order. */
  readonly resources: readonly string[]
  readonly overtime: boolean
}

export interface Task {
  readonly id: string
  readonly jobId: string
  readonly modes: readonly Mode[]
  readonly breaks: BreakRule
  /** Set-up and batch family. */
  readonly family: string | null
  readonly earliestStart: number
  readonly latestEnd: number | null
  /** Taken from stock at the start. */
  readonly uses: readonly { readonly stockId: string; readonly amount: number }[]
  readonly fixed: Fixed | null
}

/**
 * Generalised precedence: x + minMinutes <= start of `to` <= x + maxMinutes, where x is the start or end of `from`.
 * No-wait is minMinutes 0 and maxMinutes 0 after the end.
 */
export interface Lag {
  readonly from: string
  readonly to: string
  readonly after: 'start' | 'end'
  readonly minMinutes: number
  readonly maxMinutes: number | null
}

/** Blocking: one resource is held from the start of a task until another starts or ends, over every break. */
export interface Hold {
  readonly id: string
  readonly anyOf: readonly string[]
  readonly units: number
  readonly fromTask: string
  readonly untilTask: string
  readonly until: 'start' | 'end'
  /** Set when the hold has begun: the resource can no longer change. */
  readonly fixedResource: string | null
}

/** A consumable in lots that expire. `expiresAt` is the first minute at which the lot may no longer be used. */
export interface Stock {
  readonly id: string
  readonly lots: readonly {
    readonly id: string
    readonly amount: number
    readonly expiresAt: number | null
  }[]
}

/** What can be priced. Tasks left out of the plan always come first, whatever the prices. */
export const objectiveTerms = [
  'weightedTardiness',
  'shortage',
  'waste',
  'overtime',
  'change',
  'makespan',
] as const
export type ObjectiveTerm = (typeof objectiveTerms)[number]

export type Objective =
  | { readonly kind: 'weighted'; readonly weights: Readonly<Partial<Record<ObjectiveTerm, number>>> }
  | { readonly kind: 'lexicographic'; readonly order: readonly ObjectiveTerm[] }

/** Price of changing what was published (the `change` term of the objective). */
export interface Stability {
  /** Per minute that a task starts earlier or later than published. */
  readonly perMinuteMoved: number
  /** Per resource that a task or hold changes. */
  readonly perResourceChanged: number
  /** The price of moving falls linearly from full at the origin to zero here; null: no fading. */
  readonly fadesOutAt: number | null
}

/** A validated problem: every field present, every reference resolved. Made only by `defineProblem`. */
export interface Problem {
  readonly horizonMinutes: number
  readonly profiles: readonly RateProfile[]
  readonly calendars: readonly Calendar[]
  readonly resources: readonly Resource[]
  readonly jobs: readonly Job[]
  readonly tasks: readonly Task[]
  readonly lags: readonly Lag[]
  readonly holds: readonly Hold[]
  readonly stocks: readonly Stock[]
  readonly objective: Objective
  readonly stability: Stability
}
