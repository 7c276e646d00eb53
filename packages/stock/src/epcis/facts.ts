/** What is known of a movement of the ledger, for an EPCIS event. */
export interface TracedMovement {
  /** Unique over the chain. */
  readonly id: string
  readonly kind:
    | 'received'
    | 'opened'
    | 'used'
    | 'emptied'
    | 'discarded'
    | 'corrected'
    | 'sent'
    | 'arrived'
    | 'moved'
    | 'lost'
  readonly atMs: number
  /** Of the shop: events carry its offset. */
  readonly timeZone: string
  readonly cartridge: { readonly id: string; readonly code: string }
  /** Pieces that come on the shelf (1), leave it (-1), or neither. */
  readonly pieces: number
  /** mL; negative when used. */
  readonly volumeChangeMl: number
  readonly shopId: string
  readonly locationId: string | null
  readonly recordedBy: string
  readonly reason: string
  readonly joint: { readonly id: string; readonly repairOrderId: string } | null
  readonly shipment: { readonly id: string; readonly fromShopId: string; readonly toShopId: string } | null
  readonly lot: TracedLot
}

export interface TracedLot {
  readonly id: string
  readonly lotNumber: string
  /** Of a single cartridge; null where nobody has scanned one yet. */
  readonly gtin: string | null
  /** `2031-05-31`, the last day that counts. */
  readonly printedExpiry: string
}

/** A hold of a whole lot, and how it was disposed of. */
export interface TracedHold {
  readonly id: string
  readonly kind: 'held' | 'ended' | 'scrapped'
  readonly atMs: number
  readonly timeZone: string
  readonly recordedBy: string
  readonly reason: string
  readonly lot: TracedLot
}
