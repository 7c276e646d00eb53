/**
 * Where a joint stands, from everything that happened to it. One function answers for the move of the vehicle, its
 * completion, a bake, a booking and the plan, so that none of them can say yes of a joint of which another says no.
 */
export type JointState =
  /** No adhesive was ever put on it. */
  | 'neverBonded'
  /** Adhesive is on, the joint is not clamped. */
  | 'open'
  | 'curing'
  /** Handling strength is reached on the careful estimate, the clamps are still on. */
  | 'ready'
  /** The clamps came off once it was ready. */
  | 'releasedReady'
  /** The clamps came off before, and nobody has disposed of that. */
  | 'releasedEarly'
  /** Clamped, or moved once more, after the work time had run out, and nobody has disposed of that. */
  | 'closedLate'
  /** Applied although a gate refused, and nobody has disposed of that. */
  | 'appliedAgainstRefusal'
  /** The panels were lifted apart: adhesive is on both faces. */
  | 'lifted'
  /** Given up: adhesive is on it and must be scraped off. */
  | 'abandoned'
  /** What departed from the rules was inspected and accepted by somebody entitled. */
  | 'accepted'
  /** To be made again, and no later attempt has taken its place. */
  | 'toBeRedone'

/** What departed from the rules in an attempt, as far as it decides whether the joint may be relied on. */
export interface Departure {
  readonly kind:
    | 'earlyRelease'
    | 'clampedAfterWorkTime'
    | 'movedAfterWorkTime'
    | 'appliedAgainstRefusal'
    | 'leftWithAdhesive'
  readonly disposition: 'inspectedAndAccepted' | 'redone' | null
}

/** One attempt at a joint. */
export interface Attempt {
  readonly stage: 'applied' | 'clamped' | 'released' | 'abandoned' | 'lifted'
  /**
   * Of a running attempt: handling strength is reached on the careful estimate, and whatever else its class asks for is
   * there. Not looked at for one that ended: what was known then is in its departures.
   */
  readonly isReady: boolean
  readonly departures: readonly Departure[]
}

export interface JointStanding {
  readonly state: JointState
  /** Which attempt the state speaks of, counted from zero; null when there was none. */
  readonly attempt: number | null
  /**
   * The vehicle may be moved as far as this joint goes: never bonded, ready (its clamps come off with the move), released
   * once ready, or disposed of by somebody entitled. */
  readonly mayMove: boolean
  /** Nothing more is to be done on it before the vehicle's work can be called done. */
  readonly isFinished: boolean
}

/** States that no waiting mends: a person has to do something about the joint first. */
const HELD = [
  'releasedEarly',
  'appliedAgainstRefusal',
  'closedLate',
  'lifted',
  'abandoned',
  'toBeRedone',
] as const satisfies readonly JointState[]
export type HeldState = (typeof HELD)[number]

export function isHeldState(state: JointState): state is HeldState {
  return (HELD as readonly JointState[]).includes(state)
}

/** From the state that holds a vehicle the most to the one that holds it the least. */
const GRAVITY: readonly JointState[] = [
  'releasedEarly',
  'appliedAgainstRefusal',
  'closedLate',
  'lifted',
  'abandoned',
  'toBeRedone',
  'open',
  'curing',
  'ready',
  'accepted',
  'releasedReady',
  'neverBonded',
]

const MAY_MOVE: ReadonlySet<JointState> = new Set(['neverBonded', 'ready', 'releasedReady', 'accepted'])
const FINISHED: ReadonlySet<JointState> = new Set(['neverBonded', 'releasedReady', 'accepted'])

/**
 * The standing of a joint: that of the gravest attempt which no later one has replaced. Total: every history has one.
 *
 * A later attempt replaces one that was scraped off (abandoned, lifted) or is to be redone. It does not replace one with a
 * departure that nobody disposed of: what was released early and is then bonded over still waits for a person.
 *
 * @param attempts In the order in which they were made.
 */
export function jointStanding(attempts: readonly Attempt[]): JointStanding {
  let worst: { state: JointState; attempt: number } | null = null
  for (const [i, attempt] of attempts.entries()) {
    const isLast = i === attempts.length - 1
    const state = attemptState(attempt)
    if (!isLast && isReplaced(state, attempt)) continue
    if (worst === null || GRAVITY.indexOf(state) <= GRAVITY.indexOf(worst.state))
      worst = { state, attempt: i }
  }
  const state = worst?.state ?? 'neverBonded'
  return {
    state,
    attempt: worst?.attempt ?? null,
    mayMove: MAY_MOVE.has(state),
    isFinished: FINISHED.has(state),
  }
}

/** Whether an attempt may be given up for a later one: what it stood for is no longer on the vehicle. */
function isReplaced(state: JointState, { stage }: Attempt): boolean {
  if (stage === 'abandoned' || stage === 'lifted') return true
  return state === 'toBeRedone'
}

/** Where one attempt stands, by itself. */
export function attemptState({ stage, isReady, departures }: Attempt): JointState {
  if (stage === 'abandoned' || stage === 'lifted') {
    const left = departures.filter(({ kind }) => kind === 'leftWithAdhesive')
    if (!left.some(({ disposition }) => disposition === 'inspectedAndAccepted')) return stage
  }
  const open = (kind: Departure['kind']): boolean =>
    departures.some((departure) => departure.kind === kind && departure.disposition === null)
  if (open('earlyRelease')) return 'releasedEarly'
  if (open('appliedAgainstRefusal')) return 'appliedAgainstRefusal'
  if (open('clampedAfterWorkTime') || open('movedAfterWorkTime')) return 'closedLate'
  if (open('leftWithAdhesive')) return 'abandoned'
  if (departures.some(({ disposition }) => disposition === 'redone')) return 'toBeRedone'
  if (stage === 'applied') return 'open'
  if (stage === 'clamped') return isReady ? 'ready' : 'curing'
  // Whatever departed from the rules has been accepted by now.
  return departures.length > 0 ? 'accepted' : 'releasedReady'
}

/** The worst of all joints of a vehicle; one that has none may be moved. */
export function worstStanding(standings: readonly JointStanding[]): JointStanding | undefined {
  return standings.toSorted((a, b) => GRAVITY.indexOf(a.state) - GRAVITY.indexOf(b.state))[0]
}
