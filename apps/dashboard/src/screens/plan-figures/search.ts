import { dayOf } from '../../lib/search.ts'

export interface FigureSearch {
  readonly from?: string | undefined
  /** The last day that counts; today when left out. */
  readonly until?: string | undefined
}

export function readFigureSearch(raw: Record<string, unknown>): FigureSearch {
  return { from: dayOf(raw['from']), until: dayOf(raw['until']) }
}
