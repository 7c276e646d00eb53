import type { Random } from '../search/random.ts'
import type { Board } from './board.ts'
import type { Compiled } from './compiled.ts'
import type { Cost } from './cost.ts'

/** Up to so many groups leave the board all together now and then: a small problem has few plans but deep valleys. */
const mostAtOnce = 12

/** Chooses which groups leave the board together. */
export class Ruin {
  private readonly compiled: Compiled
  private readonly board: Board
  private readonly cost: Cost
  private readonly random: Random
  private readonly isOff: Uint8Array
  /** Whether all groups may leave the board at once. */
  readonly isSmall: boolean
  private readonly near = new Int32Array(64)

  constructor(board: Board, cost: Cost, random: Random) {
    this.compiled = board.compiled
    this.board = board
    this.cost = cost
    this.random = random
    this.isOff = new Uint8Array(board.compiled.groups.length)
    this.isSmall = board.compiled.groups.length <= mostAtOnce
  }

  /** A seed, mostly a costly group, and groups that stand next to it on its resources. */
  pick(among: readonly number[] | null): number[] {
    const { random, board, cost, compiled, near } = this
    const { groups, modes, width } = compiled
    const count = groups.length
    const pool = among ?? null
    const any = (): number => (pool === null ? random.below(count) : pool[random.below(pool.length)]!)
    let first = any()
    if (random.below(3) > 0) {
      // Tournament on cost.
      for (let trial = 0; trial < 3; trial++) {
        const other = any()
        if (cost.perGroup[other]! > cost.perGroup[first]!) first = other
      }
    }
    const isAll = this.isSmall && random.below(8) === 0
    const wanted = isAll ? count : Math.min(count, 2 + random.below(Math.min(4, 2 + (count >> 1))))
    const list = [first]
    const off = this.isOff
    off[first] = 1
    const allowed = pool === null ? null : new Set(pool)
    const take = (g: number): void => {
      if (off[g] === 1 || list.length >= wanted || (allowed !== null && !allowed.has(g))) return
      off[g] = 1
      list.push(g)
    }
    if (cost.perGroup[first]! < 1e11) {
      for (let from = 0, tries = 0; list.length < wanted && tries < 24; tries++) {
        const g = list[from % list.length]!
        if (tries % 4 === 3) from++
        const { tasks, holds } = groups[g]!
        if (tasks.length === 0) continue
        let resource = -1
        let minute = 0
        if (holds.length > 0 && random.below(2) === 0) {
          const h = holds[random.below(holds.length)]!
          resource = board.holdStart[h]! >= 0 ? board.holdResource[h]! : -1
          minute = board.holdStart[h]!
        } else {
          const i = tasks[random.below(tasks.length)]!
          if (board.start[i]! < 0) continue
          const demands = modes[i]![board.mode[i]!]!.demands.length
          if (demands === 0) continue
          resource = board.taken[i * width + random.below(demands)]!
          minute = board.start[i]!
        }
        if (resource < 0) continue
        const found = board.timelines[resource]!.around(minute, 2 + random.below(4), near)
        for (let k = 0; k < found; k++) {
          const owner = near[k]!
          if (owner < 0) continue
          take(this.groupOfOwner(owner))
        }
      }
    } else if (groups[first]!.isBegun) for (const other of this.rivals(first)) take(other)
    while (list.length < Math.min(wanted, 3, pool?.length ?? count)) {
      const g = any()
      if (off[g] === 0) take(g)
    }
    // What has no place yet gets a chance each time.
    for (let g = 0; g < count && list.length < wanted + 4; g++) {
      if (cost.perGroup[g]! >= 1e11 && off[g] === 0 && (allowed === null || allowed.has(g))) {
        off[g] = 1
        list.push(g)
      }
    }
    for (const g of list) off[g] = 0
    return list
  }

  /** The groups and those that stand near them on their resources: where a repair may look for room. */
  neighbourhood(groups: readonly number[]): number[] {
    const found = new Set(groups)
    const { compiled, board, near } = this
    for (const g of groups) {
      for (const h of compiled.groups[g]!.holds) {
        if (board.holdStart[h]! < 0) continue
        const count = board.timelines[board.holdResource[h]!]!.around(board.holdStart[h]!, 4, near)
        for (let k = 0; k < count; k++) this.addOwner(near[k]!, found)
      }
      for (const i of compiled.groups[g]!.tasks) {
        if (board.start[i]! < 0) continue
        const { demands } = compiled.modes[i]![board.mode[i]!]!
        for (let d = 0; d < demands.length; d++) {
          const count = board.timelines[board.taken[i * compiled.width + d]!]!.around(
            board.start[i]!,
            2,
            near,
          )
          for (let k = 0; k < count; k++) this.addOwner(near[k]!, found)
        }
      }
    }
    return [...found].sort((a, b) => a - b)
  }

  /** Groups with a stay on a resource that the group holds already and can't change. */
  rivals(g: number): number[] {
    const { compiled, board } = this
    const found = new Set<number>()
    for (const h of compiled.groups[g]!.holds) {
      const { fixedResource, from } = compiled.holds[h]!
      if (fixedResource < 0) continue
      const everybody = new Int32Array(compiled.jobOf.length + compiled.holds.length)
      const count = board.timelines[fixedResource]!.around(board.start[from]!, everybody.length, everybody)
      for (let k = 0; k < count; k++) this.addOwner(everybody[k]!, found)
    }
    found.delete(g)
    return [...found].sort((a, b) => a - b)
  }

  private addOwner(owner: number, found: Set<number>): void {
    if (owner >= 0) found.add(this.groupOfOwner(owner))
  }

  private groupOfOwner(owner: number): number {
    const { groupOf, holds } = this.compiled
    return owner < groupOf.length ? groupOf[owner]! : groupOf[holds[owner - groupOf.length]!.from]!
  }
}
