import { TransferModel, type Columns } from './transfer-model.ts'
import type { Transfer, TransferProblem } from './transfer-problem.ts'

export interface TransferPlan {
  readonly transfers: readonly Transfer[]
  /** Value of what expires if nothing is sent, and with the transfers. */
  readonly wasteWithout: number
  readonly wasteWith: number
  readonly transferCost: number
  /** Whether nothing cheaper exists, to within the gap asked for; false when the time ran out. */
  readonly isOptimal: boolean
}

export interface TransferLimits {
  readonly gap: number
  readonly seconds: number
}

export interface MilpSolution {
  readonly Status: string
  readonly ObjectiveValue: number
  /** By variable, with `Primal` where there is a solution. */
  readonly Columns: Columns
}

/** A solver of mixed-integer programs in CPLEX LP text: what `highs` gives. Passed in, so that this package loads nothing. */
export interface MilpSolver {
  solve(
    program: string,
    options: { readonly output_flag: boolean; readonly mip_rel_gap: number; readonly time_limit: number },
  ): MilpSolution | Promise<MilpSolution>
}

/**
 * The transfers that save the most money: whole cartridges to where they are used before they die, less what trips and
 * packing cost. Expected use is taken as certain; `wasteForecast` tells what the answer is worth under chance.
 *
 * A mixed-integer program on a network in time: a lot flows to uses in the stretches (between two expiries or arrivals)
 * in which it is alive, in its own shop or, after the way, in another; trips are yes or no. Solved to proven optimum.
 *
 * @param limits `gap`: how far from the optimum, as a share of the cost, is near enough; `seconds`: afterwards the best
 *   plan found so far is given, if there is one that pays.
 * @throws {RangeError} For a figure below 0, or a lane or lot that is there twice.
 */
export async function planTransfers(
  problem: TransferProblem,
  solver: MilpSolver,
  limits: TransferLimits = { gap: 0, seconds: 20 },
): Promise<TransferPlan> {
  requireSound(problem)
  const nobodySends = new TransferModel(problem, new Set())
  const baseline = await solved(nobodySends, solver, limits)
  const without = baseline?.objective ?? 0
  const nothing = { transfers: [], wasteWithout: without, wasteWith: without, transferCost: 0 }
  if (!baseline || without < 1e-6) return { ...nothing, isOptimal: true }

  const model = new TransferModel(problem, nobodySends.losingGroups(baseline.columns))
  const best = await solved(model, solver, limits)
  if (!best) return { ...nothing, isOptimal: false }
  const transfers = model.transfersOf(best.columns)
  const transferCost = model.costOf(transfers)
  if (transfers.length === 0 || best.objective > without - 1e-6)
    return { ...nothing, isOptimal: best.isOptimal }
  return {
    transfers,
    wasteWithout: without,
    wasteWith: best.objective - transferCost,
    transferCost,
    isOptimal: best.isOptimal,
  }
}

async function solved(
  model: TransferModel,
  solver: MilpSolver,
  { gap, seconds }: TransferLimits,
): Promise<{ readonly columns: Columns; readonly objective: number; readonly isOptimal: boolean } | null> {
  const { Status, ObjectiveValue, Columns } = await solver.solve(model.program(), {
    output_flag: false,
    mip_rel_gap: gap,
    time_limit: seconds,
  })
  const isOptimal = Status === 'Optimal'
  if (!isOptimal && !Number.isFinite(ObjectiveValue)) return null
  return { columns: Columns, objective: ObjectiveValue, isOptimal }
}

function requireSound({ lots, use, lanes }: TransferProblem): void {
  const notNegative = (name: string, value: number) => {
    if (!(value >= 0)) throw new RangeError(`${name} is ${value}: give 0 or more`)
  }
  lots.forEach((lot, i) => {
    notNegative(`lots[${i}].cartridges`, lot.cartridges)
    notNegative(`lots[${i}].valueEach`, lot.valueEach)
    if (!(lot.volumeMl > 0)) throw new RangeError(`lots[${i}].volumeMl is ${lot.volumeMl}: give mL above 0`)
  })
  use.forEach(({ perDayMl }, i) => notNegative(`use[${i}].perDayMl`, perDayMl))
  lanes.forEach((lane, i) => {
    notNegative(`lanes[${i}].days`, lane.days)
    notNegative(`lanes[${i}].tripCost`, lane.tripCost)
    notNegative(`lanes[${i}].costEach`, lane.costEach)
  })
  requireOnce(
    'lots',
    lots.map(({ id, shopId }) => `${id} in ${shopId}`),
  )
  requireOnce(
    'lanes',
    lanes.map(({ fromShopId, toShopId }) => `${fromShopId} to ${toShopId}`),
  )
}

function requireOnce(name: string, keys: readonly string[]): void {
  const twice = keys.find((key, i) => keys.indexOf(key) !== i)
  if (twice !== undefined) throw new RangeError(`${name} has ${twice} twice: give it once`)
}
