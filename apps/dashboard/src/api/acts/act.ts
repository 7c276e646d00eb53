import type { LiveTopic, ProblemCode, WireReason } from '@clampclock/contracts'
import { isSameLine, isTask } from './task.ts'

/** What people do to a bond, by the name of its route. */
export type ActKind =
  'startBond' | 'addPanelReading' | 'clampBond' | 'slideBond' | 'releaseBond' | 'abandonBond'

/** What an act is about, for whoever reads of it later. */
export interface ActAbout {
  readonly shopId: string
  readonly repairOrderId: string
  readonly repairOrderNumber: string
  readonly vehicle: string
  readonly jointId: string
  readonly jointName: string
}

/** Why the service refused an act, as it said it (RFC 9457), with the words that it used. */
export interface KeptProblem {
  readonly code: ProblemCode | 'unknown'
  readonly status: number
  readonly message: string
  readonly reasons: readonly WireReason[]
}

/** Why an act has not been answered: nobody there, a fault there, too much asked of it, or nobody signed in. */
export type Silence = 'noAnswer' | 'serverError' | 'busy' | 'signedOut'

/** One press of a person, kept on the device until the service has answered. */
export interface Act {
  /** The order of the presses on this device, over all its tabs. */
  readonly seq: number
  /** Its Idempotency-Key, however often it is sent. */
  readonly id: string
  readonly personId: string
  readonly kind: ActKind
  /** The request as it was pressed: another build of the page sends it as it was. */
  readonly method: 'POST'
  readonly path: string
  readonly params: Readonly<Record<string, string>>
  readonly body: unknown
  /** When it was pressed, ISO 8601, by the service's clock as far as it was known. */
  readonly at: string
  readonly about: ActAbout
  /** What it changes. */
  readonly topics: readonly LiveTopic[]
  /** `stopped`: what came before it was refused, and it was not sent. */
  readonly state: 'waiting' | 'refused' | 'stopped' | 'sent'
  /** How often no answer came. */
  readonly tries: number
  readonly silence: Silence | null
  /** Not sent before that, ms since 1970 on the clock of this device. */
  readonly dueMs: number
  readonly problem: KeptProblem | null
  /** When the service answered, ISO 8601; null while it has not. */
  readonly settledAt: string | null
  /** The person has seen that it was refused, or has pressed something else in its place. */
  readonly isSeen: boolean
}

export type NewAct = Pick<
  Act,
  'id' | 'personId' | 'kind' | 'method' | 'path' | 'params' | 'body' | 'at' | 'about' | 'topics'
>

export function pressed(act: NewAct): Omit<Act, 'seq'> {
  return {
    ...act,
    state: 'waiting',
    tries: 0,
    silence: null,
    dueMs: 0,
    problem: null,
    settledAt: null,
    isSeen: false,
  }
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
    .map((act) => ({
      ...act,
      state: 'waiting',
      tries: 0,
      silence: null,
      dueMs: 0,
      problem: null,
      settledAt: null,
      isSeen: false,
    }))
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
