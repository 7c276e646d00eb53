import type { Message } from '@clampclock/messages'
import type { AlertKind } from '@clampclock/contracts'
import { domainEvent } from './domain-event.ts'

/** That somebody should look at something. */
export interface AttentionNeeded {
  readonly organizationId: string
  readonly shopId: string
  readonly kind: AlertKind
  readonly message: Message
  readonly subjectKind:
    'cartridge' | 'lot' | 'product' | 'count' | 'joint' | 'bond' | 'booking' | 'operation' | 'sensor' | 'job'
  readonly subjectId: string
  readonly repairOrderId?: string
  readonly openedAt: Date
}

/** That what it was about is over. */
export interface AttentionOver {
  readonly organizationId: string
  readonly shopId: string
  readonly kind: string
  readonly subjectId: string
  readonly at: Date
}

export const attentionNeeded = domainEvent<AttentionNeeded>('attention needed')
export const attentionOver = domainEvent<AttentionOver>('attention over')
