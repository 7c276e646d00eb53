import type { LiveTopic, ProblemCode, WireReason } from '@clampclock/contracts'

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
