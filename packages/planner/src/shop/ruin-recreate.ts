/**
 * Ruin and recreate with simulated annealing over the shop model: take a late group and its neighbours in time off
 * the board, insert them again in another order, and keep the result by the annealing rule. After Schrimpf et al.
 * 2000 (doi 10.1006/jcph.1999.6413) and Christiaens & Vanden Berghe 2020 (doi 10.1287/trsc.2019.0914).
 */
import type { Budget } from '../search/budget.ts'
import { Random } from '../search/random.ts'
import { Board, Snapshot } from './board.ts'
import type { Compiled } from './compile.ts'
import { ComponentOrder } from './component-order.ts'
import { Cost } from './cost.ts'
import { Placement, type Published } from './placement.ts'
import { groupFacts, rules, type GroupFacts } from './rules.ts'

export interface ShopSearchOptions {
  readonly seed: number
  readonly budget: Budget
  readonly published: Published | null
  readonly lowerBound: number
  /** Share of the budget spent, 0 to 1; drives the temperature. */
  readonly progress: () => number
  readonly onImprovement: () => void
}

const moveOrders = 7

export class ShopSearch {
  readonly board: Board
  readonly cost: Cost
  /** The best plan so far, while the board moves on. */
  readonly best: Snapshot
  bestCost = Infinity
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
    this.best = new Snapshot(this.board)
    this.undo = new Snapshot(this.board)
    this.key = new Float64Array(compiled.groups.length)
    this.isOff = new Uint8Array(compiled.groups.length)
  }

  /** Builds a plan by each priority rule and goes on from the best. */
  construct(): void {
    const { groups } = this.compiled
    for (const rule of rules) {
      if (this.bestCost < Infinity && this.options.budget.spent()) break
      this.clear()
      groups.forEach((_, g) => (this.key[g] = rule(this.facts[g]!)))
      this.insert(
        groups.map((_, g) => g),
        false,
        false,
      )
      this.options.budget.iterations++
      this.current = this.cost.updateAll()
      this.noteBest()
      if (this.bestCost <= this.options.lowerBound) return
    }
    this.goToBest()
  }

  /** Starts from the published plan: everything where it was, what no longer fits as near after it as can be. */
  followPublished(order: readonly number[], sticky: boolean): void {
    this.clear()
    order.forEach((g, at) => (this.key[g] = at))
    this.insert([...order], sticky, false)
    this.current = this.cost.updateAll()
    this.noteBest()
  }

  goToBest(): void {
    this.clear()
    for (let g = 0; g < this.compiled.groups.length; g++) this.best.restore(this.board, g)
    this.current = this.cost.updateAll()
  }

  /** Searches until the budget is spent or the bound is met. `among`: only these groups may move. */
  improve(among: readonly number[] | null = null): void {
    const { budget, lowerBound, progress } = this.options
    const count = this.compiled.groups.length
    if (count === 0) return
    const scale = Math.max(1, this.bestCost < 1e11 ? this.bestCost : 1) / count
    const hot = 0.25 * scale
    const cold = 0.002 * scale
    while (!budget.spent() && this.bestCost > lowerBound + 1e-9) {
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
    this.insert(list, sticky, true)
    for (const g of list) cost.updateGroup(g)
    const after = cost.total()
    if (after <= before - temperature * Math.log(1 - random.unit())) {
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

  /** Inserts the groups in the order of their keys, those that have begun first. */
  private insert(list: number[], sticky: boolean, isSearch: boolean): void {
    const { groups, hasOvertime } = this.compiled
    const { key, placement, random, orders } = this
    list.sort((a, b) => Number(groups[b]!.isBegun) - Number(groups[a]!.isBegun) || key[a]! - key[b]! || a - b)
    placement.fit.blink = isSearch && random.below(4) === 0 ? 16 : 0
    for (const g of list) {
      const order = orders.order(g)
      if (!hasOvertime) {
        placement.placeGroup(g, 0, sticky, order)
        continue
      }
      this.placeCheaper(g, sticky, order)
    }
    placement.fit.blink = 0
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
    const { groups, groupOf, modes, width } = compiled
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
    const wanted = Math.min(count, 2 + random.below(Math.min(12, 2 + (count >> 1))))
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
          take(
            owner < groupOf.length ? groupOf[owner]! : groupOf[compiled.holds[owner - groupOf.length]!.from]!,
          )
        }
      }
    }
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

  private setKeys(list: readonly number[]): void {
    const { random, key, facts, undo, cost, compiled } = this
    const pick = random.below(moveOrders)
    for (const g of list) {
      const fact = facts[g]!
      if (pick < rules.length) key[g] = rules[pick]!(fact) * (0.9 + 0.2 * random.unit())
      else if (pick === rules.length) key[g] = random.unit()
      else key[g] = undo.start[compiled.groups[g]!.tasks[0] ?? 0]! * (0.9 + 0.2 * random.unit())
      if (cost.perGroup[g]! >= 1e11 && random.below(2) === 0) key[g]! -= 1e9
    }
  }
}
