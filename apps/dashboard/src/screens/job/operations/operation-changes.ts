import type { ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../../api/client.ts'
import type { Operation } from '../../../api/types.ts'
import { moved } from '../../../features/operations/sequence.ts'
import { stepOf, type StepValues } from '../../../features/operations/step-values.ts'
import { t } from '../../../lib/reader.ts'

type Changes = NonNullable<InputOf<typeof ROUTES.editOperation>['body']>

/**
 * Only what was changed: of what somebody else changed meanwhile nothing is undone, and a bake by its program keeps the longer
 * minutes that somebody gave it.
 */
export function changesOf(before: StepValues, after: StepValues): Changes {
  const was = stepOf(before)
  const { workMinutes, highestMetalC, ...rest } = stepOf(after)
  const isChanged = (field: keyof typeof was, value: unknown) =>
    JSON.stringify(was[field]) !== JSON.stringify(value)
  const fields = ['name', 'technicians', 'skill', 'clampSets', 'attributes', 'bakeProgram'] as const
  return {
    ...Object.fromEntries(
      fields.filter((field) => isChanged(field, rest[field])).map((field) => [field, rest[field]]),
    ),
    // Null where they follow from something else, which is nothing to be told.
    ...(workMinutes !== null && isChanged('workMinutes', workMinutes) ? { workMinutes } : {}),
    ...(highestMetalC !== null && isChanged('highestMetalC', highestMetalC) ? { highestMetalC } : {}),
  }
}

/** Which operation it comes right after once it has gone up or down; null: before them all. Undefined: it goes no further. */
export function placeAfterMove(
  chain: readonly Operation[],
  at: number,
  by: -1 | 1,
): string | null | undefined {
  const next = moved(chain, at, by)
  if (next === chain) return undefined
  const { id, kind } = chain[at]!
  const now = next.findIndex((each) => each.id === id)
  // A cure goes with its bond, which is the one before it.
  const first = kind === 'cure' && next[now - 1]?.kind === 'bondAndClamp' ? now - 1 : now
  const before = next[first - 1]
  return before?.kind === chain[at]!.kind || isOfJoint(chain[at]!) ? (before?.id ?? null) : null
}

function isOfJoint({ jointId }: Operation): boolean {
  return jointId !== null
}

/** The joints that have operations, and the vehicle: each with what is done on it, in order. */
export function chainsOf(
  operations: readonly Operation[],
): { readonly jointId: string | null; readonly name: string; readonly chain: readonly Operation[] }[] {
  const jointIds = [...new Set(operations.map(({ jointId }) => jointId))].toSorted(
    // As they come; what is done on the vehicle comes after all of them.
    (a, b) => Number(a === null) - Number(b === null),
  )
  return jointIds.map((jointId) => {
    const chain = operations.filter((each) => each.jointId === jointId)
    return { jointId, name: chain[0]?.jointName ?? t('job.onTheVehicleAfterAllItsJoints'), chain }
  })
}
