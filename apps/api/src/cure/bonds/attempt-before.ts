import { written } from '../../foundation/words/params.ts'
import { message } from '@clampclock/messages'
import { invalidField } from '../../foundation/problems/problem-error.ts'
import type { Tx } from '../../foundation/database/database.ts'

/** How the attempt before it ended, at a joint that is bonded again. */
export interface AttemptBefore {
  /** When the old adhesive is said to have been done with. */
  readonly endedAt: Date
  /** When that was entered: until then the program knew the old adhesive to be on the joint. */
  readonly knownAt: Date
}

/** The latest attempt at a joint that is over; null before the first. */
export async function attemptBefore(tx: Tx, jointId: string): Promise<AttemptBefore | null> {
  const bond = await tx.bond.findFirst({
    where: { jointId, state: { in: ['released', 'abandoned'] } },
    orderBy: { attempt: 'desc' },
    include: {
      bondRecordEntries: {
        where: { kind: { in: ['released', 'abandoned'] } },
        orderBy: { sequence: 'desc' },
        take: 1,
      },
    },
  })
  if (!bond) return null
  const endedAt = bond.abandonedAt ?? bond.releasedAt ?? bond.appliedAt
  return { endedAt, knownAt: bond.bondRecordEntries[0]?.recordedAt ?? endedAt }
}

/** @throws {ProblemError} `invalid-request`: two lots of adhesive were never on one joint at once. */
export function requireAfter(before: AttemptBefore | null, appliedAt: Date, timeZone: string): void {
  if (before === null || appliedAt >= before.endedAt) return
  throw invalidField(
    'body.appliedAt',
    message('cure-problem.beforeAttemptOver', { at: written(before.endedAt, timeZone) }),
    message('cure-problem.newNozzleFix'),
  )
}
