import type { PlanDetail, PlannedOperation, Resource } from '../../api/types.ts'
import { BAY_ATTRIBUTE } from '../../lib/words.ts'
import type { RowKind } from './search.ts'

export interface Row {
  readonly id: string
  readonly name: string
  readonly detail: string
  readonly bars: readonly PlannedOperation[]
  /** Where a vehicle stands (or what it holds) while nothing is done on it. */
  readonly stays: readonly { readonly startsAt: string; readonly endsAt: string; readonly label: string }[]
}

/** The rows of the picture: places with the vehicles on them, people with their work, or vehicles with their operations. */
export function rowsOf(plan: PlanDetail, resources: readonly Resource[], kind: RowKind): Row[] {
  const vehicle = new Map(plan.orders.map((order) => [order.id, order]))
  const label = (orderId: string) => vehicle.get(orderId)?.number ?? ''
  if (kind === 'vehicles') {
    return plan.orders.map((order) => ({
      id: order.id,
      name: order.vehicle,
      detail: order.number,
      bars: plan.operations.filter(({ repairOrderId }) => repairOrderId === order.id),
      stays: [],
    }))
  }
  const wanted: readonly Resource['kind'][] = kind === 'places' ? ['bay', 'oven', 'clampSet'] : ['technician']
  const inTurn = resources
    .filter((resource) => resource.active && wanted.includes(resource.kind))
    .toSorted((a, b) => wanted.indexOf(a.kind) - wanted.indexOf(b.kind) || a.name.localeCompare(b.name, 'en'))
  return inTurn.map((resource) => ({
    id: resource.id,
    name: resource.name,
    detail:
      kind === 'places'
        ? resource.attributes.map((each) => BAY_ATTRIBUTE[each]).join(', ')
        : resource.skills.join(', '),
    bars: plan.operations.filter((operation) =>
      kind === 'people' ? operation.technicianIds.includes(resource.id) : operation.placeId === resource.id,
    ),
    stays: plan.stays
      .filter(({ resourceId }) => resourceId === resource.id)
      .map(({ startsAt, endsAt, repairOrderId, units }) => ({
        startsAt,
        endsAt,
        label:
          units > 1 || resource.kind === 'clampSet'
            ? `${label(repairOrderId)} × ${units}`
            : label(repairOrderId),
      })),
  }))
}

/** Bars that overlap on one row go on lanes of their own: two people on one car, two cures side by side. */
export function lanesOf(spans: readonly { readonly startsAt: string; readonly endsAt: string }[]): number[] {
  const ends: number[] = []
  return spans.map(({ startsAt, endsAt }) => {
    const start = Date.parse(startsAt)
    const free = ends.findIndex((end) => end <= start)
    const lane = free < 0 ? ends.length : free
    ends[lane] = Date.parse(endsAt)
    return lane
  })
}
