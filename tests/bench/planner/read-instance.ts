/** Readers of the standard text forms of scheduling instances into the planner's JSON form. */

export interface Instance {
  readonly name: string
  readonly kind: 'job shop' | 'flexible job shop' | 'project' | 'shop'
  /** JSON form, as `defineProblem` reads it. */
  readonly input: unknown
}

const rowsOf = (text: string): number[][] =>
  text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => /^[-\d]/.test(line))
    .map((line) => line.split(/\s+/).map(Number))

interface Operation {
  /** Machine and duration of each choice. */
  readonly choices: readonly (readonly [machine: number, duration: number])[]
}

/** Job shop or flexible job shop from chains of operations. */
function shopInput(jobs: readonly (readonly Operation[])[], machines: number): object {
  const id = (j: number, k: number): string => `J${j + 1}.${k + 1}`
  const longest = jobs
    .flat()
    .reduce((sum, operation) => sum + Math.max(...operation.choices.map(([, d]) => d)), 0)
  return {
    horizonMinutes: Math.max(1, longest),
    resources: Array.from({ length: machines }, (_, m) => ({ id: `M${m + 1}` })),
    jobs: jobs.map((_, j) => ({ id: `J${j + 1}` })),
    tasks: jobs.flatMap((operations, j) =>
      operations.map((operation, k) => ({
        id: id(j, k),
        jobId: `J${j + 1}`,
        modes: operation.choices.map(([machine, work]) => ({
          work,
          demands: [{ anyOf: [`M${machine + 1}`] }],
        })),
      })),
    ),
    lags: jobs.flatMap((operations, j) =>
      operations.slice(1).map((_, k) => ({ from: id(j, k), to: id(j, k + 1) })),
    ),
    objective: { kind: 'weighted', weights: { makespan: 1 } },
  }
}

/** "jobs machines", then a line a job of pairs machine duration, machines from 0. Null when the text is not that. */
export function readJobShop(text: string): object | null {
  const [first, ...rows] = rowsOf(text)
  const [jobs, machines] = first ?? []
  if (!jobs || !machines || rows.length < jobs) return null
  const lines = rows.slice(0, jobs)
  const isPairs = lines.every(
    (row) =>
      row.length === 2 * machines && row.every((value, i) => i % 2 === 1 || (value >= 0 && value < machines)),
  )
  if (!isPairs) return null
  return shopInput(
    lines.map((row) =>
      Array.from({ length: machines }, (_, k) => ({ choices: [[row[2 * k]!, row[2 * k + 1]!] as const] })),
    ),
    machines,
  )
}

/** "jobs machines [mean]", then a line a job: operations, and for each the number of choices and its pairs, from 1. */
export function readFlexibleJobShop(text: string): object | null {
  const [first, ...rows] = rowsOf(text)
  const [jobs, machines] = first ?? []
  if (!jobs || !machines || rows.length < jobs) return null
  const chains: Operation[][] = []
  for (const row of rows.slice(0, jobs)) {
    let at = 1
    const chain = Array.from({ length: row[0]! }, (): Operation => {
      const size = row[at++] ?? 0
      const choices = Array.from({ length: size }, () => [row[at++]! - 1, row[at++]!] as const)
      return { choices }
    })
    const isRight =
      at === row.length &&
      chain.every(({ choices }) => choices.length > 0 && choices.every(([m]) => m >= 0 && m < machines))
    if (!isRight) return null
    chains.push(chain)
  }
  return shopInput(chains, machines)
}

interface Activity {
  readonly successors: readonly number[]
  readonly duration: number
  readonly demands: readonly number[]
}

/** Project from activities; successors count from 1. */
export function projectInput(activities: readonly Activity[], capacities: readonly number[]): unknown {
  return {
    horizonMinutes: Math.max(
      1,
      activities.reduce((sum, activity) => sum + activity.duration, 0),
    ),
    resources: capacities.map((capacity, k) => ({ id: `R${k + 1}`, capacity: Math.max(1, capacity) })),
    jobs: [{ id: 'project' }],
    tasks: activities.map((activity, i) => ({
      id: `A${i + 1}`,
      jobId: 'project',
      modes: [
        {
          work: activity.duration,
          demands: activity.demands.flatMap((units, k) =>
            units > 0 ? [{ anyOf: [`R${k + 1}`], units }] : [],
          ),
        },
      ],
    })),
    lags: activities.flatMap((activity, i) =>
      activity.successors.map((to) => ({ from: `A${i + 1}`, to: `A${to}` })),
    ),
    objective: { kind: 'weighted', weights: { makespan: 1 } },
  }
}

/** PSPLIB single-mode form (.sm; Kolisch & Sprecher 1996). */
export function readPsplib(text: string): unknown {
  const lines = text.split(/\r?\n/)
  const section = (title: string, skip: number): number[][] => {
    const from = lines.findIndex((line) => line.startsWith(title)) + 1 + skip
    const rows: number[][] = []
    for (let i = from; i < lines.length && /^\s*\d/.test(lines[i]!); i++)
      rows.push(lines[i]!.trim().split(/\s+/).map(Number))
    return rows
  }
  const links = section('PRECEDENCE RELATIONS', 1)
  const requests = section('REQUESTS/DURATIONS', 2)
  const capacities = section('RESOURCEAVAILABILITIES', 1)[0]!
  return projectInput(
    links.map((row, i) => ({
      successors: row.slice(3),
      duration: requests[i]![2]!,
      demands: requests[i]!.slice(3),
    })),
    capacities,
  )
}

/** Patterson form (.rcp): counts, capacities, then for each activity duration, demands, number of successors, successors. */
export function readPatterson(text: string): unknown {
  const values = text.trim().split(/\s+/).map(Number)
  let at = 0
  const take = (): number => values[at++]!
  const count = take()
  const resources = take()
  const capacities = Array.from({ length: resources }, take)
  const activities = Array.from({ length: count }, (): Activity => {
    const duration = take()
    const demands = Array.from({ length: resources }, take)
    const successors = Array.from({ length: take() }, take)
    return { duration, demands, successors }
  })
  return projectInput(activities, capacities)
}

/** The instance in a file, by its ending and content; null when it is none. */
export function readInstance(fileName: string, text: string): Instance | null {
  const name = fileName.replace(/\.[^.]+$/, '')
  const ending = fileName.slice(name.length + 1).toLowerCase()
  if (ending === 'sm') return { name, kind: 'project', input: readPsplib(text) }
  if (ending === 'rcp') return { name, kind: 'project', input: readPatterson(text) }
  if (ending === 'json') return { name, kind: 'shop', input: JSON.parse(text) as unknown }
  if (!['txt', 'fjs', 'jsp', ''].includes(ending)) return null
  const plain = ending === 'fjs' ? null : readJobShop(text)
  if (plain) return { name, kind: 'job shop', input: plain }
  const flexible = readFlexibleJobShop(text)
  return flexible ? { name, kind: 'flexible job shop', input: flexible } : null
}
