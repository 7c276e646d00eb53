import { param } from '../../foundation/words/params.ts'
import { message, type Message } from '@clampclock/messages'
import type { Operation, OperationKind } from '@clampclock/contracts'
import { inOrder, isOfVehicle, type Placed } from './expand.ts'

/** A bond and its cure: both begin with the bond itself, and neither is there without the other. */
export function isOfBond(kind: OperationKind): boolean {
  return kind === 'bondAndClamp' || kind === 'cure'
}

type Arranged = Placed & Pick<Operation, 'name' | 'hasBegun'>

/** The operations of a vehicle in another order, or why that cannot be. */
export type Arrangement<Item> =
  | { readonly kind: 'ordered'; readonly items: readonly Item[] }
  | { readonly kind: 'refused'; readonly message: Message; readonly fix: Message }

/**
 * Puts `unit` (one operation, or a bond with its cure) right after another one of its joint, or of its kind on the vehicle;
 * before all of those when `afterId` is null. `others`: what is on the vehicle beside it, in order.
 */
export function arrange<Item extends Arranged>(
  others: readonly Item[],
  unit: readonly [Item, ...Item[]],
  afterId: string | null,
): Arrangement<Item> {
  const [first] = unit
  const chain = others.filter((each) => isInChain(each, first))
  const at = afterId === null ? 0 : chain.findIndex(({ id }) => id === afterId) + 1
  if (afterId !== null && at === 0)
    return refused(
      isOfVehicle(first.kind) ? message('plan-problem.otherKindOrder') : message('plan-problem.notOfJoint'),
      message('plan-problem.lookAgainFix'),
    )
  if (chain[at - 1]?.kind === 'bondAndClamp')
    return refused(message('plan-problem.cureFollowsBond'), message('plan-problem.chooseCureFix'))
  const place =
    at > 0 ? others.indexOf(chain[at - 1]!) + 1 : chain[0] ? others.indexOf(chain[0]) : others.length
  const items = inOrder(others.toSpliced(place, 0, ...unit))
  const begun = items
    .slice(items.indexOf(unit.at(-1)!) + 1)
    .find((each) => each.hasBegun && (isOfVehicle(each.kind) || each.jointId === first.jointId))
  return begun
    ? refused(
        message('plan-problem.tooEarlyFor', { name: param(begun.name) }),
        message('plan-problem.laterPlaceFix'),
      )
    : { kind: 'ordered', items }
}

function isInChain(each: Placed, of: Placed): boolean {
  return isOfVehicle(of.kind) ? each.kind === of.kind : !isOfVehicle(each.kind) && each.jointId === of.jointId
}

function refused(message: Message, fix: Message): Arrangement<never> {
  return { kind: 'refused', message, fix }
}
