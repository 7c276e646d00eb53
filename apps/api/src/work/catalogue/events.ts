import { domainEvent } from '../../foundation/events/domain-event.ts'

/** A revision of a product's data sheet counts from now on. */
export interface SheetApproved {
  readonly organizationId: string
  readonly productId: string
  readonly now: Date
}

export const sheetApproved = domainEvent<SheetApproved>('data sheet approved')
