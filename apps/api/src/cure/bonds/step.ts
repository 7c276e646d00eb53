import type { Actor } from '../../foundation/permissions/actor.ts'
import type { Tx } from '../../foundation/database/database.ts'

/** Who does what to which bond, where and when: what every step of a bond's life needs. */
export interface Step {
  readonly tx: Tx
  readonly actor: Actor
  readonly now: Date
}
