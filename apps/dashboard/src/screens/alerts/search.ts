import type { AlertKind } from '../../api/queries/alerts.ts'
import { oneOf } from '../../lib/search.ts'
import { ALERT } from '../../lib/words.ts'

export interface AlertSearch {
  readonly kind?: AlertKind | undefined
  readonly closed?: 'yes' | undefined
  readonly mine?: 'yes' | undefined
  readonly snoozed?: 'yes' | undefined
}

export function readAlertSearch(raw: Record<string, unknown>): AlertSearch {
  return {
    kind: oneOf(raw['kind'], Object.keys(ALERT) as AlertKind[]),
    closed: oneOf(raw['closed'], ['yes']),
    mine: oneOf(raw['mine'], ['yes']),
    snoozed: oneOf(raw['snoozed'], ['yes']),
  }
}
