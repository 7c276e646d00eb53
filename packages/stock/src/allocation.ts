/** A cartridge that might be taken, as `usabilityFaults` has found it: in the shop, not on hold, fits a gun. */
export interface Candidate {
  readonly id: string
  readonly state: 'sealed' | 'opened'
  readonly remainingMl: number
  /** The first instant at which it no longer counts, as it stands. */
  readonly effectiveExpiryMs: number
  /** When it will have died once opened for this use; for an opened one the same as `effectiveExpiryMs`. */
  readonly expiryOnceOpenedMs: number
  readonly receivedAtMs: number
}

export interface Need {
  /** What the joint takes, and the first cartridge's nozzle. */
  readonly amountMl: number
  /** What stays behind in the nozzle of each further cartridge: a new one goes on with every change. */
  readonly nozzleMl: number
  /** When it will be used: what is dead by then is never handed out. */
  readonly atMs: number
}

export interface Share {
  readonly id: string
  readonly amountMl: number
}

export type Allocation =
  | { readonly kind: 'enough'; readonly shares: readonly Share[] }
  /** What there is beside the nozzles, and what is missing. Nothing of it is taken. */
  | { readonly kind: 'short'; readonly availableMl: number; readonly missingMl: number }

/**
 * First-expired-first-out over what will still be in date when it is used. One opened cartridge that holds enough goes
 * first (the soonest to die of those): it saves opening another. Else cartridges are taken in the order in which they
 * die, opened before sealed at the same instant, then by receipt and id, so that the same question has one answer. One
 * that holds no more than its nozzle gives nothing, and each further one must fill its nozzle first.
 *
 * @throws {RangeError} When the amount is not above zero, or the nozzle's is below.
 */
export function allocate(candidates: readonly Candidate[], need: Need): Allocation {
  if (!(need.amountMl > 0))
    throw new RangeError(`amountMl is ${need.amountMl}: give what the joint needs, above 0`)
  if (!(need.nozzleMl >= 0))
    throw new RangeError(`nozzleMl is ${need.nozzleMl}: give what a nozzle holds, or 0`)
  const alive = candidates.filter(
    (each) =>
      each.remainingMl > need.nozzleMl &&
      each.effectiveExpiryMs > need.atMs &&
      each.expiryOnceOpenedMs > need.atMs,
  )
  const inOrder = alive.toSorted(byExpiry)
  const single = inOrder.find((each) => each.state === 'opened' && each.remainingMl >= need.amountMl)
  if (single) return { kind: 'enough', shares: [{ id: single.id, amountMl: need.amountMl }] }

  const shares: Share[] = []
  let missingMl = need.amountMl
  for (const each of inOrder) {
    if (missingMl <= 0) break
    const nozzleMl = shares.length === 0 ? 0 : need.nozzleMl
    const amountMl = Math.min(each.remainingMl, missingMl + nozzleMl)
    shares.push({ id: each.id, amountMl })
    missingMl -= amountMl - nozzleMl
  }
  return missingMl > 0
    ? { kind: 'short', availableMl: need.amountMl - missingMl, missingMl }
    : { kind: 'enough', shares }
}

function byExpiry(a: Candidate, b: Candidate): number {
  return (
    a.effectiveExpiryMs - b.effectiveExpiryMs ||
    Number(a.state === 'sealed') - Number(b.state === 'sealed') ||
    a.receivedAtMs - b.receivedAtMs ||
    (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)
  )
}
