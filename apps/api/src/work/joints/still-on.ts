import { Prisma } from '../../generated/prisma/client.ts'
import { isRunning, type AttemptRow } from './standing.ts'

/**
 * Whether it takes the place of a bond that is still to be made: not given up, and not to be redone. One that runs does so
 * whatever was said of it, until it is given up.
 */
export function isStillOn({ state, incidents }: Omit<AttemptRow, 'wasLifted'>): boolean {
  if (state === 'abandoned') return false
  return isRunning({ state }) || !incidents.some(({ disposition }) => disposition?.kind === 'redone')
}

/** As `isStillOn`, asked of the database. */
export const STILL_ON = {
  OR: [
    { state: { in: ['applied', 'clamped'] } },
    { state: 'released', incidents: { none: { disposition: { kind: 'redone' } } } },
  ],
} satisfies Prisma.BondWhereInput

/** As `isStillOn`, of a bond `b` in a query. */
export const IS_STILL_ON = Prisma.sql`(b.state in ('applied', 'clamped') or b.state = 'released' and not exists (
  select from incident i join disposition d on d.incident_id = i.id
   where i.bond_id = b.id and d.kind = 'redone'))`
