import type { Booking, PlanDetail, PlannedOperation, Resource } from '../../../api/types.ts'
import { BAY_ATTRIBUTE } from '../../../lib/words.ts'
import type { RowKind } from '../search.ts'
import { t } from '../../../lib/reader.ts'

export interface Row {
  readonly id: string
  readonly name: string
  readonly detail: string
  readonly bars: readonly PlannedOperation[]
  /** Where a vehicle stands (or what it holds) while nothing is done on it. */
  readonly stays: readonly { readonly startsAt: string; readonly endsAt: string; readonly label: string }[]
  /** What stands there beside the plan: booked by hand, or kept by a bond. */
  readonly others: readonly Booking[]
}

/** The rows of the picture: places with the vehicles on them, people with their work, or vehicles with their operations. */
export function rowsOf(
  plan: PlanDetail,
  resources: readonly Resource[],
  kind: RowKind,
  bookings: readonly Booking[] = [],
): Row[] {
  const vehicle = new Map(plan.orders.map((order) => [order.id, order]))
  const label = (orderId: string) => vehicle.get(orderId)?.number ?? ''
  if (kind === 'vehicles') {
    return plan.orders.map((order) => ({
      id: order.id,
      name: order.vehicle,
      detail: order.number,
      bars: plan.operations.filter(({ repairOrderId }) => repairOrderId === order.id),
      stays: [],
      others: [],
    }))
  }
  const wanted: readonly Resource['kind'][] = kind === 'places' ? ['bay', 'oven', 'clampSet'] : ['technician']
  const inTurn = resources
    .filter((resource) => resource.active && wanted.includes(resource.kind))
    .toSorted((a, b) => wanted.indexOf(a.kind) - wanted.indexOf(b.kind) || a.name.localeCompare(b.name, 'en'))
  return inTurn.map((resource) => {
    const own = <Each extends { readonly resourceId: string }>(all: readonly Each[]) =>
      all.filter(({ resourceId }) => resourceId === resource.id)
    const isCounted = resource.kind === 'clampSet'
    const others = own(bookings).filter(({ planId }) => planId === null)
    const stays = own(plan.stays).map(({ startsAt, endsAt, repairOrderId, units }) => ({
      startsAt,
      endsAt,
      label: isCounted ? `${label(repairOrderId)} × ${units}` : label(repairOrderId),
    }))
    // Of clamps there are enough for several vehicles at once: those lie in lanes beside each other.
    const beside = others.map(({ startsAt, endsAt, repairOrderNumber, units }) => ({
      startsAt,
      endsAt,
      label: `${repairOrderNumber} × ${units}`,
    }))
    return {
      id: resource.id,
      name: resource.name,
      detail:
        kind === 'places'
          ? resource.attributes.map((each) => BAY_ATTRIBUTE[each]).join(', ')
          : resource.skills.join(', '),
      bars: plan.operations.filter((operation) =>
        kind === 'people' ? operation.technicianIds.includes(resource.id) : operation.placeId === resource.id,
      ),
      stays: isCounted
        ? [...stays, ...beside].toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))
        : stays,
      others: isCounted ? [] : others,
    }
  })
}

/** Why a place is taken that the plan knows nothing of. */
export function whyTaken({ curingUntil }: Pick<Booking, 'curingUntil'>): string {
  return curingUntil === null ? t('plan.bookedBesideThePlan') : t('plan.aBondOnItCures')
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
