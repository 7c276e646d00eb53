import { Random } from '../search/random.ts'

export interface RandomProblemOptions {
  readonly tasks: number
  readonly horizonMinutes: number
  /** Leave out what the exhaustive search would take too long for. */
  readonly isTiny: boolean
  /** Only what a linear program can say: constant lengths, no calendar, no batch, no set-up, one machine a place. */
  readonly isLinear?: boolean
}

/** A random problem in JSON form that uses every part of the model now and then. For tests. */
export function randomProblem(seed: number, options: RandomProblemOptions): unknown {
  const random = new Random(seed)
  const chance = (share: number): boolean => random.unit() < share
  const between = (low: number, high: number): number => low + random.below(high - low + 1)
  const { tasks: count, horizonMinutes, isTiny, isLinear = false } = options
  const longest = isTiny ? 4 : 12
  const jobCount = Math.max(1, Math.ceil(count / between(1, 4)))
  const shifts: [number, number][] = []
  for (let at = between(0, 3); at < horizonMinutes;) {
    const until = Math.min(horizonMinutes, at + between(longest, 2 * longest))
    shifts.push([at, until])
    at = until + between(1, longest)
  }
  const overtime = chance(0.2)
    ? shifts.slice(1).map((shift, i): [number, number] => [shifts[i]![1], shift[0]])
    : []
  const machineCount = between(1, 3)
  const machines = Array.from({ length: machineCount }, (_, m) => `machine-${m}`)
  const families = ['red', 'blue']
  const hasSetups = chance(0.15) && !isLinear
  const resources: unknown[] = machines.map((id, m) => ({
    id,
    calendarId: chance(0.4) && !isLinear ? 'shifts' : null,
    unavailable: chance(0.2) ? [[between(2, 8), between(9, 12)]] : [],
    setups:
      hasSetups && m === 0
        ? [
            { fromFamily: 'red', toFamily: 'blue', minutes: 2 },
            { fromFamily: 'blue', toFamily: 'red', minutes: 1 },
          ]
        : [],
  }))
  resources.push({
    id: 'crew',
    capacity: isLinear ? 1 : 2,
    calendarId: chance(0.3) && !isLinear ? 'shifts' : null,
  })
  resources.push({ id: 'oven', capacity: 2, batch: true })
  const profiles = [
    {
      id: 'warm',
      points: Array.from({ length: 6 }, (_, k) => ({
        atMinute: k * longest,
        ratePerMinute: between(k === 5 ? 1 : 0, 3),
      })),
    },
  ]
  const jobs = Array.from({ length: jobCount }, (_, j) => ({
    id: `job-${j}`,
    releaseAt: chance(0.3) ? between(0, 6) : 0,
    dueAt: chance(0.8) ? between(4, horizonMinutes >> 1) : null,
    deadlineAt: chance(0.05) ? horizonMinutes - between(0, 6) : null,
    weight: between(1, 4),
  }))
  const jobOf = Array.from({ length: count }, (_, i) => i % jobCount)
  const tasks = jobOf.map((j, i) => {
    const isBake = chance(0.1) && !isLinear
    const isCure = !isBake && chance(0.2) && !isLinear
    const family = isBake ? `bake-${between(0, 1)}` : chance(0.5) ? families[between(0, 1)]! : null
    const work = between(chance(0.05) && !isLinear ? 0 : 1, longest)
    const modes = Array.from({ length: isBake || isCure || chance(0.8) ? 1 : 2 }, (_, m) => {
      if (isBake) return { work: family === 'bake-0' ? 3 : 2, demands: [{ anyOf: ['oven'] }] }
      if (isCure) return { work: work * 2, profileId: 'warm', demands: [] }
      const one = { anyOf: chance(0.5) ? [machines[random.below(machineCount)]!] : machines }
      return {
        work: work + m,
        demands: chance(0.25) ? [one, { anyOf: ['crew'], units: isLinear ? 1 : between(1, 2) }] : [one],
      }
    })
    return {
      id: `task-${i}`,
      jobId: `job-${j}`,
      modes,
      family,
      breaks: (['pause', 'forbid', 'ignore'] as const)[isBake || isCure ? 2 : between(0, 2)],
    }
  })
  const lags: unknown[] = []
  const previous = new Map<number, number>()
  jobOf.forEach((j, i) => {
    const before = previous.get(j)
    previous.set(j, i)
    if (before === undefined || chance(0.15)) return
    const minMinutes = chance(0.2) ? between(1, 3) : 0
    lags.push({
      from: `task-${before}`,
      to: `task-${i}`,
      after: chance(0.1) ? 'start' : 'end',
      minMinutes,
      maxMinutes: chance(0.25) ? minMinutes + between(0, 2 * longest) : null,
    })
  })
  if (count > 2 && chance(0.2)) lags.push({ from: 'task-0', to: `task-${count - 1}` })
  const holds: unknown[] = []
  if (chance(0.4)) {
    const inOrder = lags.filter((lag) => Reflect.get(Object(lag), 'after') === 'end')
    const lag = inOrder[random.below(inOrder.length)]
    if (lag) {
      resources.push({ id: 'bay-a' }, { id: 'bay-b' })
      const until = chance(0.5) ? 'start' : 'end'
      holds.push({
        id: 'stay',
        anyOf: ['bay-a', 'bay-b'],
        fromTask: Reflect.get(Object(lag), 'from'),
        untilTask: Reflect.get(Object(lag), 'to'),
        until,
      })
      holds.push({ id: 'other', anyOf: ['bay-a'], fromTask: 'task-0', untilTask: 'task-0' })
    }
  }
  const kind = random.below(4)
  const objective =
    kind === 0
      ? { kind: 'lexicographic', order: ['weightedTardiness', 'makespan'] }
      : {
          kind: 'weighted',
          weights:
            kind === 1
              ? { makespan: 1 }
              : { weightedTardiness: 1, ...(kind === 2 ? { makespan: 1, overtime: 1 } : {}) },
        }
  return {
    horizonMinutes,
    profiles,
    calendars: [{ id: 'shifts', shifts, overtime }],
    resources,
    jobs,
    tasks,
    lags,
    holds,
    objective,
  }
}
