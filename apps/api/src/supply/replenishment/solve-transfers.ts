import { createRequire } from 'node:module'
import { planTransfers, type MilpSolver, type TransferPlan, type TransferProblem } from '@clampclock/stock'
import { Piscina } from 'piscina'

const worker = createRequire(import.meta.url).resolve('@clampclock/api/workers/milp.mjs')
const IDLE_MS = 30_000
/** Nobody waits minutes for the last cent: the expected use is not that exact. */
export const LIMITS = { gap: 0.002, seconds: 10 }

let pool: Piscina | undefined

/** On a thread beside the event loop: others are answered meanwhile. */
export function solveTransfers(problem: TransferProblem): Promise<TransferPlan> {
  pool ??= new Piscina({ filename: worker, minThreads: 0, maxThreads: 1, idleTimeout: IDLE_MS })
  const threads = pool
  const solver: MilpSolver = { solve: (program, options) => threads.run({ program, options }) }
  return planTransfers(problem, solver, LIMITS)
}

/** Ends the thread; the next problem starts another. */
export async function endSolver(): Promise<void> {
  await pool?.destroy()
  pool = undefined
}
