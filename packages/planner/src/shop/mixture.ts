import type { Random } from '../search/random.ts'
import type { Snapshot } from './board.ts'
import type { Compiled } from './compiled.ts'
import type { ComponentOrder } from './component-order.ts'
import type { Placement } from './placement.ts'

/**
 * Inserts several groups component by component in a random mixture, where insertion group by group would put every
 * one as early as it goes in what those before it left. Good plans in which one job waits in the middle for another, or
 * a resource stays idle for one that comes later, are only reached so.
 */
export class Mixture {
  private readonly compiled: Compiled
  private readonly placement: Placement
  private readonly orders: ComponentOrder
  private readonly random: Random

  constructor(compiled: Compiled, placement: Placement, orders: ComponentOrder, random: Random) {
    this.compiled = compiled
    this.placement = placement
    this.orders = orders
    this.random = random
  }

  /** `before` is where the groups stood; those without a place now are left off the board. */
  place(list: readonly number[], before: Snapshot, sticky: boolean): void {
    const { placement, random, orders, compiled } = this
    const level = compiled.hasOvertime && random.below(4) === 0 ? 1 : 0
    if (random.below(2) === 0) this.idle(list, before)
    const waiting = list.map((g) => ({ g, order: orders.order(g), next: 0 }))
    while (waiting.length > 0) {
      const at = random.below(waiting.length)
      const turn = waiting[at]!
      const { components } = compiled.groups[turn.g]!
      const component = components[turn.order === null ? turn.next : turn.order[turn.next]!]
      turn.next++
      const isPlaced = component !== undefined && placement.placeComponent(component, level, sticky)
      if (component !== undefined && !isPlaced) placement.giveUp(turn.g)
      if (!isPlaced || turn.next === components.length) waiting.splice(at, 1)
    }
    placement.idler = -1
  }

  /** Lets one task wait for the minute at which another was done before. */
  private idle(list: readonly number[], before: Snapshot): void {
    const { random, placement, compiled } = this
    const any = (): number => {
      const { tasks } = compiled.groups[list[random.below(list.length)]!]!
      return tasks.length === 0 ? -1 : tasks[random.below(tasks.length)]!
    }
    const other = any()
    placement.idler = any()
    placement.notBefore = other < 0 ? 0 : before.end[other]!
  }
}
