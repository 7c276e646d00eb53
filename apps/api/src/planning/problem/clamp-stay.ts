interface Kept<Stay> {
  readonly operations: readonly {
    readonly operationId: string
    readonly startsAt: Date
    readonly endsAt: Date
  }[]
  readonly stays: readonly Stay[]
}

interface Step {
  readonly kind: string
  readonly jointId: string | null
}

/** What the clamps of the bond at `at` stay on for: the next work on its joint, which takes them off; without any, its cure. */
export function clampsEndWith<Item extends Step>(
  operations: readonly Item[],
  at: number,
): { readonly takesOff: Item | undefined; readonly cure: Item | undefined } {
  const later = operations.slice(at + 1).filter(({ jointId }) => jointId === operations[at]?.jointId)
  return {
    takesOff: later.find(({ kind }) => kind !== 'cure'),
    cure: later.find(({ kind }) => kind === 'cure'),
  }
}

/** What has begun is kept to the second, a stay to the minute of the plan. */
const SAME_MS = 60_000

/**
 * Which of a vehicle's stays on clamp sets is that of a bond: it begins with the bond, or, where the bond had begun when
 * the plan was made, ends when somebody takes the clamps off, or with the cure. `stays`: of this vehicle, on clamp sets.
 */
export function clampStayOf<Stay extends { readonly startsAt: Date; readonly endsAt: Date }>(
  kept: Kept<Stay>,
  operations: readonly { readonly id: string; readonly kind: string; readonly jointId: string | null }[],
  bondId: string,
): Stay | undefined {
  const at = operations.findIndex(({ id }) => id === bondId)
  const { takesOff, cure } = clampsEndWith(operations, at)
  const planned = (id: string | undefined) => kept.operations.find(({ operationId }) => operationId === id)
  const from = planned(bondId)?.startsAt
  const until = takesOff ? planned(takesOff.id)?.startsAt : planned(cure?.id)?.endsAt
  const isAt = (instant: Date | undefined, wanted: Date) =>
    instant !== undefined && Math.abs(instant.getTime() - wanted.getTime()) < SAME_MS
  return (
    kept.stays.find(({ startsAt }) => isAt(from, startsAt)) ??
    kept.stays.find(({ endsAt }) => isAt(until, endsAt))
  )
}
