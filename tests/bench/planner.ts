/** `npm run bench -- planner [DIR] [--ms N] [--seed S] [--schedules N]`: see docs/planner.md. */
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { parseArgs } from 'node:util'
import { check, defineProblem, solve, type Problem, type Stop } from '../../packages/planner/src/index.ts'
import { readBestKnown } from './planner/best-known.ts'
import { clock } from './planner/clock.ts'
import { benchRepair } from './planner/repair-bench.ts'
import { repairShop } from './planner/repair-shop.ts'
import { benchShop } from './planner/shop-bench.ts'
import { benchTardiness, withTardiness } from './planner/tardiness-bench.ts'
import { randomFlexibleShops } from './planner/random-flexible.ts'
import { randomProjects } from './planner/random-projects.ts'
import { taillardShops } from './planner/taillard.ts'
import { readInstance, readJobShop, type Instance } from './planner/read-instance.ts'

const { values: option, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    ms: { type: 'string' },
    seed: { type: 'string', default: '1' },
    schedules: { type: 'string' },
    only: { type: 'string' },
    flexible: { type: 'boolean', default: false },
    projects: { type: 'string' },
    taillard: { type: 'string', default: '15x15' },
    shop: { type: 'string' },
    tardiness: { type: 'boolean', default: false },
    reference: { type: 'string' },
    exact: { type: 'string', default: '60' },
    events: { type: 'string' },
    load: { type: 'string', default: '0.85' },
    write: { type: 'string' },
    plans: { type: 'string' },
    cpu: { type: 'boolean', default: false },
  },
})
const nowMs = clock(option.cpu)
const seed = Number(option.seed)
const stop: Stop = {
  ...(option.schedules === undefined ? {} : { schedules: Number(option.schedules) }),
  ...(option.ms === undefined && option.schedules !== undefined
    ? {}
    : { milliseconds: Number(option.ms ?? 1000) }),
}

interface Row {
  readonly gap: number | null
  readonly overCriticalPath: number
  readonly isOptimal: boolean
  readonly isFeasible: boolean
}

function criticalPath(problem: Problem): number {
  const end = new Map<string, number>()
  const visit = (id: string): number => {
    const known = end.get(id)
    if (known !== undefined) return known
    const task = problem.tasks.find((candidate) => candidate.id === id)!
    const start = problem.lags
      .filter((lag) => lag.to === id)
      .reduce((at, lag) => Math.max(at, visit(lag.from)), 0)
    const value = start + Math.min(...task.modes.map((mode) => mode.work))
    end.set(id, value)
    return value
  }
  return problem.tasks.reduce((longest, task) => Math.max(longest, visit(task.id)), 0)
}

/** Cost after a longer run with another seed: what a short run is set against where no optimum is known. */
const longRun = (problem: Problem, milliseconds: number): number =>
  solve(problem, { seed: seed + 1000, stop: { milliseconds }, nowMs }).cost

function measure(instance: Instance, bestKnown: number | null): Row {
  const problem = option.tardiness
    ? withTardiness(defineProblem(instance.input))
    : defineProblem(instance.input)
  const begun = nowMs()
  const result = solve(problem, { seed, stop, nowMs })
  const ms = nowMs() - begun
  const verdict = check(problem, result.plan)
  if (option.plans !== undefined) {
    mkdirSync(option.plans, { recursive: true })
    writeFileSync(join(option.plans, `${instance.name}.plan.json`), JSON.stringify(result.plan))
  }
  if (instance.kind === 'shop' || option.tardiness) {
    const isRight = verdict.feasible && result.lowerBound <= result.cost
    const reference = option.reference === undefined ? null : longRun(problem, Number(option.reference))
    console.log(
      `${instance.name} cost ${result.cost} reference ${reference ?? '-'} bound ${result.lowerBound} ${ms.toFixed(0)} ms ${isRight ? 'checked' : 'NOT FEASIBLE'}`,
    )
    const least = option.tardiness ? reference && Math.min(reference, result.cost) : bestKnown
    const gap = least === null ? null : (result.cost - least) / Math.max(1, least)
    return { gap, overCriticalPath: 0, isOptimal: result.status === 'optimal', isFeasible: isRight }
  }
  const value = verdict.values.makespan
  const longer =
    bestKnown === null && option.reference !== undefined ? longRun(problem, Number(option.reference)) : null
  const least = bestKnown ?? (longer === null ? null : Math.min(longer, value))
  const isSound =
    verdict.feasible && result.lowerBound <= value && (bestKnown === null || result.lowerBound <= bestKnown)
  const gap = least === null ? null : value / least - 1
  const percent = gap === null ? '-' : `${(100 * gap).toFixed(2)} %`
  console.log(
    `${instance.name.padEnd(12)} best ${value}  bound ${result.lowerBound}  ${longer === null ? 'known' : 'longer'} ${bestKnown ?? longer ?? '-'}  gap ${percent}  ` +
      `${ms.toFixed(0)} ms  ${result.iterations} it  ${result.schedules} schedules  ${isSound ? 'checked' : 'NOT FEASIBLE'}`,
  )
  for (const violation of verdict.violations.slice(0, 3)) console.log(`  ${violation.message}`)
  return {
    gap,
    overCriticalPath: value / criticalPath(problem) - 1,
    isOptimal: value === bestKnown || result.status === 'optimal',
    isFeasible: isSound,
  }
}

const mean = (list: readonly number[]): number | null =>
  list.length === 0 ? null : list.reduce((sum, value) => sum + value, 0) / list.length

function summarize(suite: string, rows: readonly Row[]): Record<string, unknown> {
  return {
    suite,
    instances: rows.length,
    meanGap: mean(rows.flatMap((row) => row.gap ?? [])),
    meanOverCriticalPath: mean(rows.map((row) => row.overCriticalPath)),
    optimal: rows.filter((row) => row.isOptimal).length,
    infeasible: rows.filter((row) => !row.isFeasible).length,
  }
}

/** Without a folder: what a generator makes. */
function benchBuiltIn(): Record<string, unknown> {
  const wanted = new RegExp(option.only ?? '')
  const measureAll = (suite: string, instances: readonly (Instance & { best?: number | null })[]) =>
    summarize(
      suite,
      instances
        .filter(({ name }) => wanted.test(name))
        .map((instance) => measure(instance, instance.best ?? null)),
    )
  if (option.flexible) return measureAll('random-flexible', randomFlexibleShops(1))
  if (option.projects !== undefined)
    return measureAll(`random-projects-${option.projects}`, randomProjects(Number(option.projects), 1))
  const shops = taillardShops(option.taillard)
  return measureAll(
    `taillard-${option.taillard}`,
    shops.map(({ name, text, best }) => ({ name, best, kind: 'job shop', input: readJobShop(text) })),
  )
}

function benchFolder(directory: string): Record<string, unknown> {
  const table = join(directory, 'best-known.csv')
  const bestKnown = existsSync(table) ? readBestKnown(readFileSync(table, 'utf8')) : new Map<string, number>()
  const wanted = new RegExp(option.only ?? '')
  const rows = readdirSync(directory)
    .filter((file) => wanted.test(file))
    .toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }))
    .flatMap((file) => readInstance(file, readFileSync(join(directory, file), 'utf8')) ?? [])
    .map((instance) => measure(instance, bestKnown.get(instance.name) ?? null))
  return summarize(basename(directory), rows)
}

async function run(): Promise<Record<string, unknown>> {
  if (option.tardiness && positionals[0] === undefined)
    return await benchTardiness(seed, stop, nowMs, Number(option.exact))
  if (option.shop === undefined)
    return positionals[0] === undefined ? benchBuiltIn() : benchFolder(positionals[0])
  const vehicles = Number(option.shop)
  const load = Number(option.load)
  if (option.events !== undefined) return benchRepair(vehicles, seed, load, Number(option.events), nowMs)
  if (option.write !== undefined)
    writeFileSync(option.write, JSON.stringify(repairShop(vehicles, seed, load)))
  return benchShop(vehicles, seed, load, stop, nowMs)
}

console.log(JSON.stringify(await run()))
