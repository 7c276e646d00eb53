import type { Actor } from '../foundation/permissions/actor.ts'
import type { Tx } from '../foundation/database/database.ts'
import type { Random } from './random.ts'
import type { DemoShop } from './shops.ts'

/** What the demo has built so far: each part adds to it and reads from it. */
export interface World {
  readonly tx: Tx
  readonly now: Date
  readonly random: Random
  readonly organizationId: string
  readonly owner: Actor
  readonly partsManager: Actor
  readonly scheduler: Actor
  readonly products: readonly {
    readonly id: string
    readonly name: string
    readonly form: string
    readonly openLifeDays: number
  }[]
  readonly shops: readonly WorldShop[]
}

export interface DemoInstruments {
  readonly probeId: string
  readonly hygrometerId: string
}

export interface WorldShop {
  readonly id: string
  readonly plan: DemoShop
  readonly bays: readonly { readonly id: string; readonly name: string }[]
  readonly ovenId: string
  readonly clampSetId: string
  readonly dispensers: readonly { readonly id: string; readonly cartridgeForms: readonly string[] }[]
  readonly placeIds: readonly string[]
  readonly technician: Actor
  readonly instruments: DemoInstruments
}

const HOUR_MS = 3_600_000

export function hoursFrom(now: Date, hours: number): Date {
  return new Date(Math.round((now.getTime() + hours * HOUR_MS) / 60_000) * 60_000)
}
