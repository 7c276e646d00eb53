import { domainEvent } from '../../foundation/events/domain-event.ts'

/** A bond was started, closed, clamped, released, lifted, given up or answered for. */
export interface BondChanged {
  readonly organizationId: string
  readonly bondId: string
  readonly now: Date
}

export const bondChanged = domainEvent<BondChanged>('bond changed')
