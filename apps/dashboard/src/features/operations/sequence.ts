import type { OperationKind } from '@clampclock/contracts'
import { OF_THE_VEHICLE } from '../../api/contracts.ts'

interface InSequence {
  readonly kind: OperationKind
}

interface Unit {
  readonly from: number
  readonly size: number
}

/** The places that a step takes: a bond and its cure stay together. */
export function unitAt(steps: readonly InSequence[], at: number): Unit {
  if (steps[at]?.kind === 'cure' && steps[at - 1]?.kind === 'bondAndClamp') return { from: at - 1, size: 2 }
  const isPair = steps[at]?.kind === 'bondAndClamp' && steps[at + 1]?.kind === 'cure'
  return { from: at, size: isPair ? 2 : 1 }
}

/** Where steps of the vehicle stand among each other: the program does them in this order, whatever is written. */
export function stageOf({ kind }: InSequence): number {
  return OF_THE_VEHICLE.indexOf(kind)
}

/** Of a template, or of one joint of a vehicle. @returns the same steps where the one at `at` can go no further that way. */
export function moved<Step extends InSequence>(
  steps: readonly Step[],
  at: number,
  by: -1 | 1,
): readonly Step[] {
  const { from, size } = unitAt(steps, at)
  const neighbour = unitAt(steps, by < 0 ? from - 1 : from + size)
  const other = steps[neighbour.from]
  if (other === undefined || stageOf(other) !== stageOf(steps[at]!)) return steps
  const first = Math.min(from, neighbour.from)
  const unit = steps.slice(from, from + size)
  const passed = steps.slice(neighbour.from, neighbour.from + neighbour.size)
  return steps.toSpliced(
    first,
    size + neighbour.size,
    ...(by < 0 ? [...unit, ...passed] : [...passed, ...unit]),
  )
}
