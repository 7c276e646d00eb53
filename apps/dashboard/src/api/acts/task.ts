import type { Act } from './act.ts'

/** Whether a person must look at it: it is not in the record, and will not get there by itself. */
export function isTask({ state, isSeen }: Pick<Act, 'state' | 'isSeen'>): boolean {
  return (state === 'refused' || state === 'stopped') && !isSeen
}

/** Order is kept for each joint: an attempt, and the next one at the same place. */
export function isSameLine(a: Act, b: Act): boolean {
  return a.personId === b.personId && a.about.jointId === b.about.jointId
}

/** Whether it waits and no answer is a moment away: none came so far, or none to what goes before it. */
export function isKept(act: Act, acts: readonly Act[]): boolean {
  if (act.state !== 'waiting') return false
  return acts.some(
    (other) =>
      other.state === 'waiting' && other.silence !== null && other.seq <= act.seq && isSameLine(other, act),
  )
}
