import { domainEvent } from '../../foundation/events/domain-event.ts'

/** Something was learned about the air of a bay, from an instant on that may be past. */
export interface AirLearned {
  readonly bayId: string
  readonly fromAt: Date
  readonly now: Date
}

export const airLearned = domainEvent<AirLearned>('air of a bay learned')
