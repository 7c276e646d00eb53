/**
 * Ruin and recreate with simulated annealing over the shop model: take a late group and its neighbours in time off
 * the board, insert them again in another order, and keep the result by the annealing rule. After Schrimpf et al.
 * 2000 (doi 10.1006/jcph.1999.6413) and Christiaens & Vanden Berghe 2020 (doi 10.1287/trsc.2019.0914).
 */
import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { Board, Snapshot } from './board.ts'
import type { Compiled } from './compiled.ts'
import { ComponentOrder } from './component-order.ts'
import { Cost } from './cost.ts'
import { Placement } from './placement.ts'
import { placeAsPublished, type Published } from './published.ts'
import { groupFacts, rules, type GroupFacts } from './rules.ts'

export interface ShopSearchOptions {
  readonly seed: number
  readonly budget: Budget
  readonly published: Published | null
  /** Share of the budget spent, 0 to 1; drives the temperature. */
  readonly progress: () => number
  readonly onImprovement: () => void
}

const moveOrders = 12

export class ShopSearch {
  readonly board: Board
  readonly cost: Cost
  /** The best plan so far, while the board moves on. */
  readonly best: Snapshot
  bestCost = Infinity
  /** Proved bound of the cost; reaching it ends the search. */
  private lowerBound = -Infinity
  /** What each group costs at least. */
  private groupBound: Float64Array
  private readonly compiled: Compiled
  private readonly random: Random
  private readonly options: ShopSearchOptions
  private readonly placement: Placement
  private readonly orders: ComponentOrder
  private readonly facts: readonly GroupFacts[]
  private readonly undo: Snapshot
  private readonly key: Float64Array
  private readonly isOff: Uint8Array
  private readonly near = new Int32Array(64)
  private current = Infinity

  constructor(compiled: Compiled, options: ShopSearchOptions) {
    this.compiled = compiled
    this.options = options
    this.random = new Random(options.seed)
    this.board = new Board(compiled)
    this.placement = new Placement(this.board, this.random, options.published)
    this.cost = new Cost(this.board, options.published)
    this.orders = new ComponentOrder(compiled)
    this.facts = groupFacts(compiled)
    this.groupBound = new Float64Array(compiled.groups.length)
    this.best = new Snapshot(this.board)
    this.undo = new Snapshot(this.board)
    this.key = new Float64Array(compiled.groups.length)
    this.isOff = new Uint8Array(compiled.groups.length)
  }

  /** Bounds are worked out after a first plan is there, which matters more. */
  setBounds(lowerBound: number, groupBound: Float64Array): void {
    this.lowerBound = lowerBound
    this.groupBound = groupBound
  }

  /** Builds a plan by priority rule number `first`, and by those after it up to `last`; the board ends at the best. */
  construct(first: number, last = rules.length - 1): void {
    const { groups } = this.compiled
    for (let r = first; r <= last && this.bestCost > this.lowerBound; r++) {
      if (this.bestCost < Infinity && this.options.budget.spent()) break
      this.clear()
      groups.forEach((_, g) => (this.key[g] = rules[r]!(this.facts[g]!)))
      const all = groups.map((_, g) => g)
      this.insert(all, false, Infinity)
      this.options.budget.iterations++
      this.current = this.cost.updateAll()
      this.noteBest()
    }
    if (this.current > this.bestCost) this.goToBest()
  }

  /**
   * Squeaky wheel optimisation (Joslin & Clements 1999, doi 10.1613/jair.561): insert all again, the groups that came
   * out late the sooner the more they cost; a few rounds repair most of what a priority rule gets wrong.
   */
  squeak(rounds: number): void {
    const { groups } = this.compiled
    const { random, cost, key, board } = this
    const count = groups.length
    const rank = new Float64Array(count)
    const order = groups.map((_, g) => g)
    const startOf = (g: number): number => board.start[groups[g]!.tasks[0] ?? 0]!
    order.sort((a, b) => startOf(a) - startOf(b) || a - b).forEach((g, at) => (rank[g] = at))
    for (
      let round = 0;
      round < rounds &&
      this.options.progress() < 0.25 &&
      !this.options.budget.spent() &&
      this.bestCost > this.lowerBound + 1e-9;
      round++
    ) {
      let worst = 1e-9
      for (let g = 0; g < count; g++)
        worst = Math.max(worst, Math.min(cost.perGroup[g]! - this.groupBound[g]!, 1e11))
      for (let g = 0; g < count; g++) {
        const blame = Math.min(1, (cost.perGroup[g]! - this.groupBound[g]!) / worst)
        rank[g]! -= blame <= 0 ? 0 : (0.3 + Math.sqrt(blame)) * (0.5 + random.unit()) * 0.02 * count
      }
      order.sort((a, b) => rank[a]! - rank[b]! || a - b).forEach((g, at) => (rank[g] = at))
      this.clear()
      for (let g = 0; g < count; g++) key[g] = rank[g]!
      this.insert([...order], false, Infinity)
      this.options.budget.iterations++
      this.current = cost.updateAll()
      this.noteBest()
    }
    this.goToBest()
  }

  /**
   * Starts from the published plan: every group that still can stays exactly where it was, the others follow as near
   * after their published times as there is room, those that have begun first. Answers the groups that were moved.
   */
  followPublished(published: Published): number[] {
    const { groups } = this.compiled
    this.clear()
    const startOf = (g: number): number =>
      groups[g]!.tasks.reduce(
        (least, i) => Math.min(least, published.start[i]! < 0 ? 2 ** 30 : published.start[i]!),
        2 ** 30,
      )
    const order = groups.map((_, g) => g).sort((a, b) => startOf(a) - startOf(b) || a - b)
    order.forEach((g, at) => (this.key[g] = at))
    const moved: number[] = []
    for (const isBegun of [true, false]) {
      const hit = order.filter(
        (g) => groups[g]!.isBegun === isBegun && !placeAsPublished(this.board, published, g),
      )
      this.insert([...hit], true, Infinity)
      moved.push(...hit)
    }
    for (const g of moved.filter((group) => !this.board.isPlaced(group))) {
      // What has begun can't leave its bay: others have to.
      const rivals = this.rivals(g)
      for (const other of rivals) this.board.removeGroup(other)
      this.insert([g], true, Infinity)
      this.insert([...rivals], true, Infinity)
      moved.push(...rivals.filter((other) => !moved.includes(other)))
    }
    this.current = this.cost.updateAll()
    this.noteBest()
    return moved
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
  private rivals(g: number): number[] {
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

  goToBest(): void {
    this.clear()
    for (let g = 0; g < this.compiled.groups.length; g++) this.best.restore(this.board, g)
    this.current = this.cost.updateAll()
  }

  /** Searches until the budget is spent or the bound is met. `among`: only these groups may move. */
  improve(among: readonly number[] | null = null): void {
    const { budget, progress } = this.options
    const count = this.compiled.groups.length
    if (count === 0) return
    const scale = Math.max(1, this.bestCost < 1e11 ? this.bestCost : 1) / count
    const hot = 0.1 * scale
    const cold = 0.002 * scale
    while (!budget.spent() && this.bestCost > this.lowerBound + 1e-9) {
      budget.iterations++
      const temperature = hot * (cold / hot) ** progress()
      this.step(temperature, among)
    }
  }

  private step(temperature: number, among: readonly number[] | null): void {
    const { random, board, cost, orders } = this
    const list = this.ruin(among)
    const before = this.current
    for (const g of list) {
      this.undo.save(board, g)
      board.removeGroup(g)
      if (orders.isOpen[g]) orders.perturb(g, random)
    }
    this.setKeys(list)
    const sticky = this.options.published !== null && random.below(2) === 0
    const limit = before - temperature * Math.log(1 - random.unit())
    const isPlaced = this.insert(list, sticky, limit)
    const after = isPlaced ? cost.total() : Infinity
    if (after <= limit) {
      this.current = after
      for (const g of list) if (orders.isOpen[g]) orders.keep(g)
      if (after < this.bestCost - 1e-9) this.noteBest()
      return
    }
    for (const g of list) board.removeGroup(g)
    for (const g of list) {
      this.undo.restore(board, g)
      cost.updateGroup(g)
      if (orders.isOpen[g]) orders.undo(g)
    }
  }

  private noteBest(): void {
    if (this.current >= this.bestCost - 1e-9) return
    this.bestCost = this.current
    for (let g = 0; g < this.compiled.groups.length; g++) this.best.save(this.board, g)
    this.options.budget.improved(this.bestCost)
    this.options.onImprovement()
  }

  private clear(): void {
    for (let g = 0; g < this.compiled.groups.length; g++) this.board.removeGroup(g)
  }

  /**
   * Inserts the groups in the order of their keys, those that have begun first. Gives up, answering false, as soon as
   * the plan is sure to cost more than `limit`.
   */
  private insert(list: number[], sticky: boolean, limit: number): boolean {
    const { groups, hasOvertime } = this.compiled
    const { key, placement, random, orders, cost, groupBound } = this
    list.sort((a, b) => Number(groups[b]!.isBegun) - Number(groups[a]!.isBegun) || key[a]! - key[b]! || a - b)
    placement.fit.blink = limit < Infinity && random.below(4) === 0 ? 16 : 0
    let sure = 0
    if (limit < Infinity) {
      for (const g of list) cost.perGroup[g] = groupBound[g]!
      for (let g = 0; g < groups.length; g++) sure += cost.perGroup[g]!
    }
    for (const g of list) {
      const order = orders.order(g)
      if (hasOvertime) this.placeCheaper(g, sticky, order)
      else placement.placeGroup(g, 0, sticky, order)
      sure += cost.updateGroup(g) - groupBound[g]!
      if (sure > limit + 1e-6) return false
    }
    return true
  }

  /** Regular hours, and overtime where that is cheaper for the group. */
  private placeCheaper(g: number, sticky: boolean, order: Int32Array | null): void {
    const { placement, board, cost } = this
    placement.placeGroup(g, 0, sticky, order)
    const regular = cost.updateGroup(g)
    if (regular === 0 || this.random.below(4) === 0) return
    board.removeGroup(g)
    placement.placeGroup(g, 1, sticky, order)
    if (cost.updateGroup(g) < regular) return
    board.removeGroup(g)
    placement.placeGroup(g, 0, sticky, order)
  }

  /** A seed, mostly a costly group, and groups that stand next to it on its resources. */
  private ruin(among: readonly number[] | null): number[] {
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
    const wanted = Math.min(count, 2 + random.below(Math.min(4, 2 + (count >> 1))))
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

  /** The order of insertion: mostly the costly seed first and the others as before, else by one of the rules. */
  private setKeys(list: readonly number[]): void {
    const { random, key, facts, undo, cost, compiled } = this
    const pick = random.below(moveOrders)
    for (let k = 0; k < list.length; k++) {
      const g = list[k]!
      const fact = facts[g]!
      if (pick < rules.length) key[g] = rules[pick]!(fact) * (0.9 + 0.2 * random.unit())
      else if (pick === rules.length) key[g] = random.unit()
      else {
        key[g] = undo.start[compiled.groups[g]!.tasks[0] ?? 0]! * (0.95 + 0.1 * random.unit())
        if (k === 0 && pick > rules.length + 1) key[g] = -1e8
      }
      if (cost.perGroup[g]! >= 1e11 && random.below(2) === 0) key[g]! -= 1e9
    }
  }
}
