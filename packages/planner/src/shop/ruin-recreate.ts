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
import { Mixture } from './mixture.ts'
import { Placement } from './placement.ts'
import { placeAsPublished, type Published } from './published.ts'
import { groupFacts, rules, type GroupFacts } from './rules.ts'
import { Ruin } from './ruin.ts'

export interface ShopSearchOptions {
  readonly seed: number
  readonly budget: Budget
  readonly published: Published | null
  /** Share of the budget spent, 0 to 1; drives the temperature. */
  readonly progress: () => number
  readonly onImprovement: () => void
}

const moveOrders = 12
/** One step in so many mixes the jobs: a small problem is done with the other steps soon, a large one hardly needs it. */
const mixOneIn = { small: 4, large: 40 }
/** Chance in 256 that a resource is passed over, in one step of four. */
const blink = 16

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
  private readonly mixture: Mixture
  private readonly facts: readonly GroupFacts[]
  private readonly undo: Snapshot
  private readonly key: Float64Array
  private readonly ruin: Ruin
  private readonly mixOneIn: number
  private current = Infinity
  private isUnheard = false

  constructor(compiled: Compiled, options: ShopSearchOptions) {
    this.compiled = compiled
    this.options = options
    this.random = new Random(options.seed)
    this.board = new Board(compiled)
    this.placement = new Placement(this.board, this.random, options.published)
    this.cost = new Cost(this.board, options.published)
    this.orders = new ComponentOrder(compiled)
    this.mixture = new Mixture(compiled, this.placement, this.orders, this.random)
    this.facts = groupFacts(compiled)
    this.groupBound = new Float64Array(compiled.groups.length)
    this.best = new Snapshot(this.board)
    this.undo = new Snapshot(this.board)
    this.key = new Float64Array(compiled.groups.length)
    this.ruin = new Ruin(this.board, this.cost, this.random)
    this.mixOneIn = this.ruin.isSmall ? mixOneIn.small : mixOneIn.large
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
      this.options.budget.askClock()
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
      this.options.budget.askClock()
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
      const rivals = this.ruin.rivals(g)
      for (const other of rivals) this.board.removeGroup(other)
      this.insert([g], true, Infinity)
      this.insert([...rivals], true, Infinity)
      moved.push(...rivals.filter((other) => !moved.includes(other)))
    }
    this.current = this.cost.updateAll()
    this.noteBest()
    return moved
  }

  /** Groups near the given ones on their resources, and these: where a repair may look for room. */
  neighbourhood(groups: readonly number[]): number[] {
    return this.ruin.neighbourhood(groups)
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
      if (this.isUnheard && budget.iterations % 32 === 0) this.tell()
    }
    if (this.isUnheard) this.tell()
  }

  private step(temperature: number, among: readonly number[] | null): void {
    const { random, board, cost, orders } = this
    const list = this.ruin.pick(among)
    const before = this.current
    for (const g of list) {
      this.undo.save(board, g)
      board.removeGroup(g)
      if (orders.isOpen[g]) orders.perturb(g, random)
    }
    this.setKeys(list)
    const sticky = this.options.published !== null && random.below(2) === 0
    const limit = before - temperature * Math.log(1 - random.unit())
    const isPlaced =
      random.below(this.mixOneIn) === 0 ? this.mix(list, sticky, limit) : this.insert(list, sticky, limit)
    const after = isPlaced ? cost.total() : Infinity
    if (after <= limit) {
      this.current = after
      for (const g of list) if (orders.isOpen[g]) orders.keep(g)
      if (after < this.bestCost - 1e-9) this.noteBest(false)
      return
    }
    for (const g of list) board.removeGroup(g)
    for (const g of list) {
      this.undo.restore(board, g)
      cost.updateGroup(g)
      if (orders.isOpen[g]) orders.undo(g)
    }
  }

  /** Keeps the board as the best plan. Small steps are told together, since writing a plan out takes time. */
  private noteBest(isToldNow = true): void {
    if (this.current >= this.bestCost - 1e-9) return
    this.bestCost = this.current
    for (let g = 0; g < this.compiled.groups.length; g++) this.best.save(this.board, g)
    this.options.budget.improved(this.bestCost)
    this.isUnheard = true
    if (isToldNow) this.tell()
  }

  private tell(): void {
    this.isUnheard = false
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
    placement.fit.blink = limit < Infinity && random.below(4) === 0 ? blink : 0
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

  /** As `insert`, the groups mixed. */
  private mix(list: readonly number[], sticky: boolean, limit: number): boolean {
    const { placement, random, cost } = this
    placement.fit.blink = random.below(4) === 0 ? blink : 0
    this.mixture.place(list, this.undo, sticky)
    for (const g of list) cost.updateGroup(g)
    return cost.total() <= limit + 1e-6
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
