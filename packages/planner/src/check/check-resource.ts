import type { Resource } from '../model/problem.ts'
import type { Report } from './violation.ts'

/** A stay on a resource, by a task or by a hold. */
export interface Stay {
  readonly name: string
  readonly taskId: string
  readonly family: string | null
  readonly from: number
  readonly until: number
  readonly units: number
  /** It has happened already, so no plan can be blamed for it. */
  readonly fact: boolean
  readonly isHold: boolean
}

/** Checks what is on one resource: that it is there, that it is enough, its batches and its set-ups. */
export function checkResource(resource: Resource, all: readonly Stay[], report: Report): void {
  const list = all.filter((stay) => stay.from < stay.until).toSorted((a, b) => a.from - b.from)
  const resourceId = resource.id
  for (const stay of list) {
    const closed = resource.unavailable.filter(([from, until]) => from < stay.until && stay.from < until)
    const [first] = closed
    if (first && !stay.fact)
      report(
        'unavailable',
        [stay.taskId],
        `${stay.name} is on ${resource.id}, which is unavailable from ${first[0]} to ${first[1]}`,
        {
          at: Math.max(first[0], stay.from),
          by: closed.reduce((sum, [from, until]) => sum + overlap(stay, { from, until }), 0),
          resourceId,
        },
      )
  }
  checkCapacity(resource, list, report)
  if (resource.batch) checkBatches(resource, list, report)
  list.forEach((stay, i) => {
    const next = list[i + 1]
    if (!next) return
    const setup = resource.setups.find(
      (entry) => entry.fromFamily === stay.family && entry.toFamily === next.family,
    )
    if (setup && next.from < stay.until + setup.minutes && !next.fact)
      report(
        'setup',
        [stay.taskId, next.taskId],
        `${next.name} needs ${setup.minutes} min of set-up after ${stay.name} on ${resource.id}`,
        { at: next.from, by: stay.until + setup.minutes - next.from, resourceId },
      )
  })
}

/** Who is there changes only where a stay begins or ends: from one such instant to the next the same are present. */
function checkCapacity(resource: Resource, list: readonly Stay[], report: Report): void {
  const instants = [...new Set(list.flatMap(({ from, until }) => [from, until]))].toSorted((a, b) => a - b)
  const over = new Map<string, { present: Stay[]; units: number; at: number; by: number }>()
  instants.forEach((at, i) => {
    const present = list.filter((stay) => stay.from <= at && at < stay.until)
    const units = present.reduce((sum, stay) => sum + stay.units, 0)
    if (units <= resource.capacity || present.every((stay) => stay.fact)) return
    const by = (units - resource.capacity) * (instants[i + 1]! - at)
    const key = JSON.stringify(present.map(({ name }) => name))
    const same = over.get(key)
    if (same) same.by += by
    else over.set(key, { present, units, at, by })
  })
  for (const { present, units, at, by } of over.values())
    report(
      'capacity',
      present.map(({ taskId }) => taskId),
      `${resource.id} has ${resource.capacity}, ${units} in use at ${at} by ${present.map(({ name }) => name).join(', ')}`,
      { at, by, resourceId: resource.id },
    )
}

/** What is in at the same time went in together, comes out together, and is of one family. */
function checkBatches(resource: Resource, list: readonly Stay[], report: Report): void {
  list.forEach((stay, i) => {
    for (const other of list.slice(i + 1)) {
      const by = overlap(stay, other)
      if (by === 0 || (stay.fact && other.fact)) continue
      const together =
        stay.from === other.from &&
        stay.until === other.until &&
        stay.family !== null &&
        stay.family === other.family
      if (!together)
        report(
          'batch',
          [stay.taskId, other.taskId],
          `${stay.name} and ${other.name} overlap on ${resource.id} but are no batch`,
          { at: Math.max(stay.from, other.from), by, resourceId: resource.id },
        )
    }
  })
}

/** Minutes that two lie over each other. */
function overlap(a: Pick<Stay, 'from' | 'until'>, b: Pick<Stay, 'from' | 'until'>): number {
  return Math.max(0, Math.min(a.until, b.until) - Math.max(a.from, b.from))
}
