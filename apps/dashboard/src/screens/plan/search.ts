import { dayOf, oneOf } from '../../lib/search.ts'

export const ROW_KINDS = ['places', 'people', 'vehicles'] as const
export type RowKind = (typeof ROW_KINDS)[number]

export const ZOOMS = ['hours', 'day', 'days', 'week', 'month'] as const
export type Zoom = (typeof ZOOMS)[number]

export interface PlanSearch {
  /** First day shown, on the shop's calendar; today when left out. */
  readonly from?: string | undefined
  readonly rows?: RowKind | undefined
  readonly zoom?: Zoom | undefined
  /** The draft is shown instead of the published plan. */
  readonly draft?: 'yes' | undefined
}

export function readPlanSearch(raw: Record<string, unknown>): PlanSearch {
  return {
    from: dayOf(raw['from']),
    rows: oneOf(raw['rows'], ROW_KINDS),
    zoom: oneOf(raw['zoom'], ZOOMS),
    draft: oneOf(raw['draft'], ['yes']),
  }
}
