import type { BreakRule, Problem } from '../model/problem.ts'
import type { Profile } from '../time/profile.ts'

export interface CompiledDemand {
  readonly resources: Int32Array
  readonly units: number
}

export interface CompiledMode {
  readonly work: number
  /** Index into `profiles`; 0 is the plain one. */
  readonly profile: number
  readonly byResource: ReadonlyMap<number, number> | null
  readonly demands: readonly CompiledDemand[]
  /** The demands with the fewest resources to choose from first, so that no other takes their only one. */
  readonly order: Int32Array
}

/** A lag seen from one of its tasks. */
export interface CompiledLag {
  readonly other: number
  readonly afterEnd: boolean
  readonly min: number
  /** `unlimited` when there is none. */
  readonly max: number
}

export interface CompiledHold {
  readonly from: number
  readonly until: number
  readonly untilEnd: boolean
  readonly resources: Int32Array
  readonly units: number
  /** -1 while it may still be chosen. */
  readonly fixedResource: number
}

export const unlimited = 2 ** 31 - 1

/** Tasks that must be placed together: tied by maximum lags or holds, in topological order. */
export interface Component {
  readonly tasks: Int32Array
  readonly holds: Int32Array
}

/** Jobs tied by lags or holds, removed and inserted as one. */
export interface Group {
  readonly jobs: Int32Array
  readonly tasks: Int32Array
  readonly holds: Int32Array
  /** In an order that respects precedence. */
  readonly components: readonly Component[]
  /** Has begun: a task is fixed. Such groups are placed first. */
  readonly isBegun: boolean
}

/** The problem in indices and arrays. */
export interface Compiled {
  readonly problem: Problem
  readonly horizon: number
  readonly profiles: readonly Profile[]
  /** Highest rate of each profile, at least 1. */
  readonly fastest: Float64Array
  /** 1 for batching machines. */
  readonly batches: Uint8Array
  /** Calendar of each resource, -1 without. */
  readonly calendarOf: Int32Array
  /** Open minutes of each calendar: without overtime, and with. */
  readonly open: readonly [readonly Profile[], readonly Profile[]]
  readonly overtime: readonly (Profile | null)[]
  readonly hasOvertime: boolean
  readonly jobOf: Int32Array
  readonly groupOf: Int32Array
  readonly breaks: readonly BreakRule[]
  readonly family: Int32Array
  readonly earliest: Int32Array
  readonly latestEnd: Int32Array
  readonly modes: readonly (readonly CompiledMode[])[]
  readonly lagsIn: readonly (readonly CompiledLag[])[]
  readonly lagsOut: readonly (readonly CompiledLag[])[]
  readonly holds: readonly CompiledHold[]
  readonly holdsFrom: readonly Int32Array[]
  readonly holdsUntil: readonly Int32Array[]
  /** Of tasks whose length depends on the resource only: the holds that lie over them. */
  readonly holdsOver: readonly Int32Array[]
  readonly isFixed: Uint8Array
  readonly groups: readonly Group[]
  /** Most demands of any mode. */
  readonly width: number
  readonly families: number
  /** setups of each resource as families x families, null without. */
  readonly setups: readonly (Int32Array | null)[]
  readonly effective: (profile: number, calendars: readonly number[], level: 0 | 1) => Profile
}
