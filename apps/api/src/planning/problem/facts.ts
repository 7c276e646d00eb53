import type { Message, Told } from '@clampclock/messages'
import type { BayAttribute, OperationKind, Priority, ResourceKind, Skill } from '@clampclock/contracts'
import type { DataSheet, ForecastPoint, HeldState } from '@clampclock/cure'
import type { Range } from '@clampclock/quantities'

/** What the plan is made from, as it stands at one instant. Read by `gather.ts`, turned into a problem by `translate.ts`. */
export interface ShopFacts {
  readonly timeZone: string
  readonly temperatureUnit: 'C' | 'F'
  /** Minute 0 of the problem: a whole minute. */
  readonly originMs: number
  readonly horizonMinutes: number
  readonly resources: readonly ResourceFact[]
  readonly shifts: readonly ShiftFact[]
  readonly exceptions: readonly ExceptionFact[]
  /** Bay air to come, by bay; a bay without a thermometer has none. */
  readonly forecasts: ReadonlyMap<string, readonly ForecastPoint[]>
  readonly orders: readonly OrderFact[]
  /** Bookings that people made, and bays that running bonds keep: the plan leaves them alone. */
  readonly taken: readonly TakenFact[]
  readonly lots: readonly LotFact[]
}

export interface ResourceFact {
  readonly id: string
  readonly kind: ResourceKind
  readonly name: string
  readonly capacity: number
  readonly attributes: readonly BayAttribute[]
  readonly skills: readonly Skill[]
  /** Out of use ones are here only as far as something stands there already. */
  readonly isActive: boolean
}

/** Minutes of the shop's clock; `resourceId` null: the shop. */
export interface ShiftFact {
  readonly resourceId: string | null
  readonly weekday: number
  readonly fromMinute: number
  readonly untilMinute: number
}

export interface ExceptionFact {
  readonly resourceId: string | null
  readonly kind: 'closed' | 'absent' | 'overtime'
  readonly firstDay: string
  readonly lastDay: string
  readonly fromMinute: number | null
  readonly untilMinute: number | null
}

export interface OrderFact {
  readonly id: string
  readonly number: string
  readonly priority: Priority
  readonly promisedAtMs: number | null
  readonly ovenLimitC: number | null
  readonly operations: readonly OperationFact[]
  /** Running bonds that are the cure of none of its operations: the vehicle stays where it is for them all the same. */
  readonly bonds: readonly BondFact[]
  /** All joints of the vehicle, with operations or without: what a bake is judged by. */
  readonly joints: readonly BakedJoint[]
}

export interface BakedJoint {
  readonly name: string
  readonly productName: string
  /** degC; null where the product has no data sheet. */
  readonly serviceRangeC: Range | null
  /** What a person has to settle about it before anything moves it; null: nothing. */
  readonly heldBy: HeldState | null
}

export interface BondFact {
  readonly id: string
  readonly jointName: string
  /** The bay that it was made in. */
  readonly placeId: string | null
  readonly startMs: number
  /** On the careful estimate; the end of the horizon when there is none. */
  readonly readyMs: number
}

export interface OperationFact {
  readonly id: string
  readonly kind: OperationKind
  readonly name: Told
  readonly jointId: string | null
  readonly place: 'bay' | 'oven'
  /** Null for a cure. */
  readonly workMinutes: number | null
  readonly technicians: number
  readonly skill: Skill | null
  readonly clampSets: number
  /** Of a bond that has begun: which clamps are on it by the published plan. */
  readonly clampSetId: string | null
  readonly attributes: readonly BayAttribute[]
  readonly highestMetalC: number | null
  /** Of a bake by the program of the oven that has not begun; null for anything else. */
  readonly byProgram: ProgramFact | null
  /** Of a bond or cure: what it takes, and by which sheet. */
  readonly joint: JointFact | null
  readonly progress: Progress
}

export interface JointFact {
  readonly productId: string
  readonly productName: string
  readonly sheet: DataSheet & { readonly serviceRangeC: { readonly max: number } }
  readonly panelTauMinutes: number | null
  readonly amountUl: number
}

/** What the program takes on this vehicle, by its joints and the forecasts as they are now. */
export interface ProgramFact {
  /** No bake by it is shorter; 0 where nobody can tell. */
  readonly leastMinutes: number
  /** Why nobody can tell. */
  readonly faults: readonly Message[]
}

/** Where an operation stands. `endMs` of a running one: as it was told, measured or planned. */
export type Progress =
  | { readonly kind: 'open' }
  | {
      readonly kind: 'running' | 'done'
      readonly startMs: number
      readonly endMs: number
      readonly placeId: string | null
      readonly technicianIds: readonly string[]
    }

export interface TakenFact {
  readonly resourceId: string
  readonly repairOrderId: string
  readonly units: number
  readonly fromMs: number
  readonly untilMs: number
}

export interface LotFact {
  readonly id: string
  readonly productId: string
  readonly amountUl: number
  readonly expiresAtMs: number
}
