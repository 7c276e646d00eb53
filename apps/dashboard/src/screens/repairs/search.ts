import { oneOf, textOf } from '../../lib/search.ts'

export interface RepairSearch {
  readonly state?: 'open' | 'done' | 'any' | undefined
  readonly number?: string | undefined
}

export function readRepairSearch(raw: Record<string, unknown>): RepairSearch {
  return { state: oneOf(raw['state'], ['open', 'done', 'any']), number: textOf(raw['number'], 40) }
}
