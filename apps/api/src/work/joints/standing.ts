import {
  attemptState,
  isHeldState,
  jointStanding,
  type Attempt,
  type Departure,
  type HeldState,
  type JointStanding,
  type JointState,
} from '@clampclock/cure'

/** As much of a bond as its joint's standing is computed from. */
export interface AttemptRow {
  readonly state: string
  readonly wasLifted: boolean
  readonly incidents: readonly {
    readonly kind: string
    readonly disposition: { readonly kind: string } | null
  }[]
}

/** What `AttemptRow` asks of a bond, for a query. */
export const ATTEMPT_ROW = {
  state: true,
  wasLifted: true,
  incidents: { select: { kind: true, disposition: { select: { kind: true } } } },
} as const

/** One that went on although a gate refused was answered for there and then: nobody waits for it. */
const isDeparture = ({ kind }: { readonly kind: string }): boolean => kind !== 'gateOverridden'

function attemptOf({ state, wasLifted, incidents }: AttemptRow, isReady: boolean): Attempt {
  return {
    stage: wasLifted ? 'lifted' : (state as Exclude<Attempt['stage'], 'lifted'>),
    isReady,
    departures: incidents.filter(isDeparture).map(({ kind, disposition }) => ({
      kind: kind as Departure['kind'],
      disposition: (disposition?.kind ?? null) as Departure['disposition'],
    })),
  }
}

/** Where the attempt stands by itself, whatever came after it. */
export function stateOf(row: AttemptRow, isReady: boolean): JointState {
  return attemptState(attemptOf(row, isReady))
}

/** Of a joint's attempts in their order; `isReady` is asked of the one that runs. */
export function standingOf<Row extends AttemptRow>(
  attempts: readonly Row[],
  isReady: (row: Row) => boolean,
): JointStanding {
  return jointStanding(attempts.map((row) => attemptOf(row, isRunning(row) && isReady(row))))
}

/** The attempts of each joint, in the order in which they come. */
export function jointsOf<Row extends { readonly jointId: string }>(rows: readonly Row[]): Row[][] {
  const joints = new Map<string, Row[]>()
  for (const row of rows) joints.set(row.jointId, [...(joints.get(row.jointId) ?? []), row])
  return [...joints.values()]
}

export function isRunning({ state }: { readonly state: string }): boolean {
  return state === 'applied' || state === 'clamped'
}

/** Whether a person has to do something about a joint before anything may be done with its vehicle; null: nobody has to. */
export function heldBy(attempts: readonly AttemptRow[]): HeldState | null {
  // How far a running attempt has cured is another question, which the estimate answers.
  const { state } = standingOf(attempts, () => true)
  return isHeldState(state) ? state : null
}
