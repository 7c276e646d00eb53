import type { Tx } from '../../foundation/database/database.ts'

/** As it is told: when the chain was last looked at to the end, when it is again, and whether a later look failed. */
export interface Watched {
  readonly at: Date | null
  readonly nextAt: Date | null
  readonly failing: boolean
}

export async function watched(tx: Tx, organizationId: string): Promise<Watched> {
  const state = await tx.watchState.findUnique({ where: { organizationId } })
  return {
    at: state?.watchedAt ?? null,
    nextAt: state?.nextAt ?? null,
    failing: state !== null && state.failedAt !== null,
  }
}

export async function keepWatched(tx: Tx, organizationId: string, now: Date, nextAt: Date): Promise<void> {
  const state = { watchedAt: now, nextAt, failedAt: null }
  await tx.watchState.upsert({
    where: { organizationId },
    create: { organizationId, ...state },
    update: state,
  })
}

/** Keeps the instant of the last look that came to its end: since then nothing is watched. */
export async function keepFailure(tx: Tx, organizationId: string, now: Date): Promise<void> {
  const state = { failedAt: now }
  await tx.watchState.upsert({
    where: { organizationId },
    create: { organizationId, ...state },
    update: state,
  })
}
