import type { Act, KeptProblem, NewAct, Silence } from './act.ts'
import { isSameLine, isTask } from './task.ts'

/** Not sent yet. */
const WAITING = {
  state: 'waiting',
  tries: 0,
  silence: null,
  dueMs: 0,
  problem: null,
  settledAt: null,
  isSeen: false,
} as const

/** A press, as it goes into the store. */
export function pressed(act: NewAct): Omit<Act, 'seq'> {
  return { ...act, ...WAITING }
}

/** A clock that was set back must not make anybody wait for hours, ms. */
const LONGEST_WAIT_MS = 60_000

/**
 * What may be sent now, in the order of the presses: of each joint the first that waits, and of this person alone.
 *
 * @param busy ids of what is on its way.
 */
export function dueActs(
  acts: readonly Act[],
  personId: string,
  nowMs: number,
  busy: ReadonlySet<string>,
): readonly Act[] {
  return firstInLine(acts, personId).filter(
    ({ id, dueMs }) => !busy.has(id) && (dueMs <= nowMs || dueMs > nowMs + LONGEST_WAIT_MS),
  )
}

/** When to look again, ms since 1970; undefined where nothing waits. */
export function nextDueMs(acts: readonly Act[], personId: string): number | undefined {
  const first = firstInLine(acts, personId)
  return first.length === 0 ? undefined : Math.min(...first.map(({ dueMs }) => dueMs))
}

function firstInLine(acts: readonly Act[], personId: string): readonly Act[] {
  const waiting = acts
    .filter((act) => act.state === 'waiting' && act.personId === personId)
    .toSorted((a, b) => a.seq - b.seq)
  return waiting.filter((act) => waiting.find((other) => isSameLine(act, other)) === act)
}

/** The service has it. Others that rest need not rest any longer: it answers again. */
export function afterAnswer(acts: readonly Act[], id: string, settledAt: string): readonly Act[] {
  const sent = acts.find((act) => act.id === id)
  if (sent === undefined) return []
  const others = acts.flatMap((act): Act[] => {
    if (act.state !== 'waiting' || act.id === id) return []
    // What stood behind one that waited has waited with it.
    const silence = act.silence ?? (isSameLine(act, sent) ? sent.silence : null)
    return act.dueMs > 0 || silence !== act.silence ? [{ ...act, dueMs: 0, silence }] : []
  })
  return [{ ...sent, state: 'sent', problem: null, settledAt }, ...others]
}

export function afterSilence(
  acts: readonly Act[],
  id: string,
  silence: Silence,
  dueMs: number,
): readonly Act[] {
  return acts
    .filter((act) => act.id === id && act.state === 'waiting')
    .map((act) => ({ ...act, tries: act.tries + 1, silence, dueMs }))
}

/** No answer so far, and it may still come. */
export function afterSlowness(acts: readonly Act[], id: string): readonly Act[] {
  return acts
    .filter((act) => act.id === id && act.state === 'waiting' && act.silence === null)
    .map((act) => ({ ...act, silence: 'noAnswer' }))
}

/** It stays with the reason, and what was pressed after it at the same joint, believing it done, is not sent by itself. */
export function afterRefusal(
  acts: readonly Act[],
  id: string,
  problem: KeptProblem,
  settledAt: string,
): readonly Act[] {
  const refused = acts.find((act) => act.id === id && act.state === 'waiting')
  if (refused === undefined) return []
  const later = acts.filter(
    (act) => act.state === 'waiting' && act.seq > refused.seq && isSameLine(act, refused),
  )
  return [
    { ...refused, state: 'refused', problem, settledAt },
    ...later.map((act): Act => ({ ...act, state: 'stopped', settledAt })),
  ]
}

/** Sent again as it was: under the same key, which the service keeps of no refusal. */
export function sentAgain(acts: readonly Act[], id: string): readonly Act[] {
  return acts
    .filter((act) => act.id === id && (act.state === 'refused' || act.state === 'stopped'))
    .map((act) => ({ ...act, ...WAITING }))
}

export function seen(acts: readonly Act[], id: string): readonly Act[] {
  return acts.filter((act) => act.id === id && isTask(act)).map((act) => ({ ...act, isSeen: true }))
}

/** How long what is over stays in the list of the day, ms. */
const KEPT_FOR_MS = 24 * 3_600_000

/** What is over since more than a day: in the record of the service, or seen. Nothing else is ever taken out. */
export function isOver({ state, isSeen, settledAt }: Act, nowMs: number): boolean {
  if (settledAt === null || (state !== 'sent' && !isSeen)) return false
  return nowMs - Date.parse(settledAt) > KEPT_FOR_MS
}
