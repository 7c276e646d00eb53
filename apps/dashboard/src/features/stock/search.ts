import { oneOf, textOf, uuidOf } from '../../lib/search.ts'

export interface StockSearch {
  readonly urgency?: 'expired' | 'soon' | 'good' | undefined
  readonly state?: 'sealed' | 'opened' | 'empty' | 'discarded' | undefined
  readonly product?: string | undefined
  readonly code?: string | undefined
}

/** The stock list's filters, as they stand in the address. */
export function readStockSearch(raw: Record<string, unknown>): StockSearch {
  return {
    urgency: oneOf(raw['urgency'], ['expired', 'soon', 'good']),
    state: oneOf(raw['state'], ['sealed', 'opened', 'empty', 'discarded']),
    product: uuidOf(raw['product']),
    code: textOf(raw['code']),
  }
}
