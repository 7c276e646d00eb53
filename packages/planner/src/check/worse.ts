import type { Violation } from './violation.ts'

/**
 * The rules that are broken further in one plan than in another of the same problem: newly, or by more. What was broken
 * before and is broken no further isn't among them, however the others at the same place have changed.
 */
export function brokenFurther(before: readonly Violation[], after: readonly Violation[]): Violation[] {
  const was = amounts(before)
  const is = amounts(after)
  return after.filter((violation) => keysOf(violation).some((key) => is.get(key)! > (was.get(key) ?? 0)))
}

function amounts(violations: readonly Violation[]): Map<string, number> {
  const sums = new Map<string, number>()
  for (const violation of violations)
    for (const key of keysOf(violation)) sums.set(key, (sums.get(key) ?? 0) + violation.by)
  return sums
}

/** Too many on a resource are compared task by task: who else is among them changes when one of them goes. */
function keysOf({ rule, taskIds, resourceId }: Violation): string[] {
  if (rule === 'capacity') return taskIds.map((id) => JSON.stringify([rule, resourceId, id]))
  return [JSON.stringify([rule, resourceId, ...taskIds.toSorted()])]
}
