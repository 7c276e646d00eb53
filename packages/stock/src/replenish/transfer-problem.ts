import type { BookedUse } from './daily-demand.ts'

/** Sealed cartridges of one lot in one shop. */
export interface TransferableLot {
  readonly id: string
  readonly shopId: string
  readonly productId: string
  readonly cartridges: number
  /** Of one cartridge. */
  readonly volumeMl: number
  /** Whole days from now in which it can be used. */
  readonly usableDays: number
  /** What a cartridge lost is worth, in the smallest unit of money. */
  readonly valueEach: number
  /** False for what must stay: opened cartridges count as stock, and are not sent. */
  readonly maySend: boolean
}

/** What a shop will use of a product. */
export interface ExpectedUse {
  readonly shopId: string
  readonly productId: string
  readonly perDayMl: number
  /** Part of the rate in its own week, not on top of it. */
  readonly booked: readonly BookedUse[]
}

/** A way from one shop to another. */
export interface Lane {
  readonly fromShopId: string
  readonly toShopId: string
  /** Whole days until what is sent can be used there. */
  readonly days: number
  /** Of one trip, whatever it carries. */
  readonly tripCost: number
  /** Of each cartridge, for packing and booking. */
  readonly costEach: number
}

export interface TransferProblem {
  readonly lots: readonly TransferableLot[]
  readonly use: readonly ExpectedUse[]
  readonly lanes: readonly Lane[]
}

export interface Transfer {
  readonly lotId: string
  readonly fromShopId: string
  readonly toShopId: string
  readonly cartridges: number
}
