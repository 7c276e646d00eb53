import { ProblemError } from './problem-error.ts'
import { objectiveTerms, type Interval, type Objective, type Problem, type Stability } from './problem.ts'
import { JsonReader } from './read-json.ts'
import { checkRules } from './problem-rules.ts'

const latest = 2 ** 30

/**
 * Reads the JSON form of a problem (docs/planner.md), fills in what is left out and checks every rule once, so that
 * nothing behind it has to. What it returns is itself a valid JSON form.
 * @throws ProblemError naming each faulty field, its value and the fix.
 */
export function defineProblem(input: unknown): Problem {
  const read = new JsonReader()
  const problem = readProblem(read, input)
  if (read.issues.length === 0) checkRules(problem, read)
  if (read.issues.length > 0) throw new ProblemError(read.issues)
  return problem
}

const sections = [
  'horizonMinutes',
  'profiles',
  'calendars',
  'resources',
  'jobs',
  'tasks',
  'lags',
  'holds',
  'stocks',
  'objective',
  'stability',
] as const

function readProblem(read: JsonReader, input: unknown): Problem {
  const o = read.record(input, 'problem', sections)
  return {
    horizonMinutes: read.whole(o['horizonMinutes'], 'horizonMinutes', { min: 1, max: latest }),
    profiles: read.list(o['profiles'], 'profiles', (item, at) => {
      const p = read.record(item, at, ['id', 'points'])
      return {
        id: read.text(p['id'], `${at}.id`),
        points: read.list(p['points'], `${at}.points`, (point, where) => {
          const q = read.record(point, where, ['atMinute', 'ratePerMinute'])
          return {
            atMinute: read.whole(q['atMinute'], `${where}.atMinute`, { max: latest }),
            ratePerMinute: read.whole(q['ratePerMinute'], `${where}.ratePerMinute`, { max: 2 ** 22 }),
          }
        }),
      }
    }),
    calendars: read.list(o['calendars'], 'calendars', (item, at) => {
      const c = read.record(item, at, ['id', 'shifts', 'overtime'])
      return {
        id: read.text(c['id'], `${at}.id`),
        shifts: readIntervals(read, c['shifts'], `${at}.shifts`),
        overtime: readIntervals(read, c['overtime'], `${at}.overtime`),
      }
    }),
    resources: read.list(o['resources'], 'resources', (item, at) => readResource(read, item, at)),
    jobs: read.list(o['jobs'], 'jobs', (item, at) => {
      const j = read.record(item, at, ['id', 'releaseAt', 'dueAt', 'deadlineAt', 'weight'])
      return {
        id: read.text(j['id'], `${at}.id`),
        releaseAt: read.whole(j['releaseAt'], `${at}.releaseAt`, { max: latest, otherwise: 0 }),
        dueAt: read.wholeOrNull(j['dueAt'], `${at}.dueAt`),
        deadlineAt: read.wholeOrNull(j['deadlineAt'], `${at}.deadlineAt`),
        weight: read.whole(j['weight'], `${at}.weight`, { max: 1_000_000, otherwise: 1 }),
      }
    }),
    tasks: read.list(o['tasks'], 'tasks', (item, at) => readTask(read, item, at)),
    lags: read.list(o['lags'], 'lags', (item, at) => {
      const l = read.record(item, at, ['from', 'to', 'after', 'minMinutes', 'maxMinutes'])
      return {
        from: read.text(l['from'], `${at}.from`),
        to: read.text(l['to'], `${at}.to`),
        after: read.oneOf(l['after'], `${at}.after`, ['start', 'end'], 'end'),
        minMinutes: read.whole(l['minMinutes'], `${at}.minMinutes`, { max: latest, otherwise: 0 }),
        maxMinutes: read.wholeOrNull(l['maxMinutes'], `${at}.maxMinutes`, { max: latest }),
      }
    }),
    holds: read.list(o['holds'], 'holds', (item, at) => {
      const h = read.record(item, at, [
        'id',
        'anyOf',
        'units',
        'fromTask',
        'untilTask',
        'until',
        'fixedResource',
      ])
      return {
        id: read.text(h['id'], `${at}.id`),
        anyOf: read.list(h['anyOf'], `${at}.anyOf`, (name, where) => read.text(name, where)),
        units: read.whole(h['units'], `${at}.units`, { min: 1, max: latest, otherwise: 1 }),
        fromTask: read.text(h['fromTask'], `${at}.fromTask`),
        untilTask: read.text(h['untilTask'], `${at}.untilTask`),
        until: read.oneOf(h['until'], `${at}.until`, ['start', 'end'], 'end'),
        fixedResource: read.textOrNull(h['fixedResource'], `${at}.fixedResource`),
      }
    }),
    stocks: read.list(o['stocks'], 'stocks', (item, at) => {
      const s = read.record(item, at, ['id', 'lots'])
      return {
        id: read.text(s['id'], `${at}.id`),
        lots: read.list(s['lots'], `${at}.lots`, (lot, where) => {
          const l = read.record(lot, where, ['id', 'amount', 'expiresAt'])
          return {
            id: read.text(l['id'], `${where}.id`),
            amount: read.whole(l['amount'], `${where}.amount`, { max: 1_000_000_000 }),
            expiresAt: read.wholeOrNull(l['expiresAt'], `${where}.expiresAt`),
          }
        }),
      }
    }),
    objective: readObjective(read, o['objective']),
    stability: readStability(read, o['stability']),
  }
}

const readIntervals = (read: JsonReader, value: unknown, field: string): Interval[] =>
  read.list(value, field, (item, at): Interval => {
    const pair: unknown[] = Array.isArray(item) ? item : []
    if (pair.length !== 2) read.fault(at, item, 'give [from, until] in minutes')
    const from = read.whole(pair[0] ?? 0, `${at}[0]`, { max: latest })
    const until = read.whole(pair[1] ?? 1, `${at}[1]`, { max: latest })
    return [from, until]
  })

function readResource(read: JsonReader, item: unknown, at: string): Problem['resources'][number] {
  const r = read.record(item, at, [
    'id',
    'capacity',
    'calendarId',
    'unavailable',
    'batch',
    'setups',
    'overtimeCostPerMinute',
  ])
  return {
    id: read.text(r['id'], `${at}.id`),
    capacity: read.whole(r['capacity'], `${at}.capacity`, { min: 1, max: latest, otherwise: 1 }),
    calendarId: read.textOrNull(r['calendarId'], `${at}.calendarId`),
    unavailable: readIntervals(read, r['unavailable'], `${at}.unavailable`),
    batch: read.flag(r['batch'], `${at}.batch`),
    setups: read.list(r['setups'], `${at}.setups`, (setup, where) => {
      const s = read.record(setup, where, ['fromFamily', 'toFamily', 'minutes'])
      return {
        fromFamily: read.text(s['fromFamily'], `${where}.fromFamily`),
        toFamily: read.text(s['toFamily'], `${where}.toFamily`),
        minutes: read.whole(s['minutes'], `${where}.minutes`, { max: latest }),
      }
    }),
    overtimeCostPerMinute: read.price(r['overtimeCostPerMinute'], `${at}.overtimeCostPerMinute`, 1),
  }
}

function readTask(read: JsonReader, item: unknown, at: string): Problem['tasks'][number] {
  const t = read.record(item, at, [
    'id',
    'jobId',
    'modes',
    'breaks',
    'family',
    'earliestStart',
    'latestEnd',
    'uses',
    'fixed',
  ])
  return {
    id: read.text(t['id'], `${at}.id`),
    jobId: read.text(t['jobId'], `${at}.jobId`),
    modes: read.list(t['modes'], `${at}.modes`, (mode, where) => {
      const m = read.record(mode, where, ['work', 'profileId', 'profileByResource', 'demands'])
      const byResource = read.record(
        m['profileByResource'] ?? {},
        `${where}.profileByResource`,
        Object.keys(m['profileByResource'] ?? {}),
      )
      return {
        work: read.whole(m['work'], `${where}.work`, { max: 2 ** 50 }),
        profileId: read.textOrNull(m['profileId'], `${where}.profileId`),
        profileByResource: Object.fromEntries(
          Object.entries(byResource).map(([key, name]) => [
            key,
            read.text(name, `${where}.profileByResource.${key}`),
          ]),
        ),
        demands: read.list(m['demands'], `${where}.demands`, (demand, spot) => {
          const d = read.record(demand, spot, ['anyOf', 'units'])
          return {
            anyOf: read.list(d['anyOf'], `${spot}.anyOf`, (name, there) => read.text(name, there)),
            units: read.whole(d['units'], `${spot}.units`, { min: 1, max: latest, otherwise: 1 }),
          }
        }),
      }
    }),
    breaks: read.oneOf(t['breaks'], `${at}.breaks`, ['pause', 'forbid', 'ignore'], 'pause'),
    family: read.textOrNull(t['family'], `${at}.family`),
    earliestStart: read.whole(t['earliestStart'], `${at}.earliestStart`, { max: latest, otherwise: 0 }),
    latestEnd: read.wholeOrNull(t['latestEnd'], `${at}.latestEnd`),
    uses: read.list(t['uses'], `${at}.uses`, (use, where) => {
      const u = read.record(use, where, ['stockId', 'amount'])
      return {
        stockId: read.text(u['stockId'], `${where}.stockId`),
        amount: read.whole(u['amount'], `${where}.amount`),
      }
    }),
    fixed:
      t['fixed'] === undefined || t['fixed'] === null ? null : readFixed(read, t['fixed'], `${at}.fixed`),
  }
}

function readFixed(read: JsonReader, value: unknown, at: string): Problem['tasks'][number]['fixed'] {
  const f = read.record(value, at, ['state', 'start', 'end', 'mode', 'resources', 'overtime'])
  return {
    state: read.oneOf(f['state'], `${at}.state`, ['locked', 'running', 'done'], 'locked'),
    start: read.whole(f['start'], `${at}.start`, { max: latest }),
    end: read.wholeOrNull(f['end'], `${at}.end`),
    mode: read.whole(f['mode'], `${at}.mode`, { otherwise: 0 }),
    resources: read.list(f['resources'], `${at}.resources`, (name, where) => read.text(name, where)),
    overtime: read.flag(f['overtime'], `${at}.overtime`),
  }
}

function readObjective(read: JsonReader, value: unknown): Objective {
  if (value === undefined || value === null) return { kind: 'weighted', weights: { weightedTardiness: 1 } }
  const o = read.record(value, 'objective', ['kind', 'weights', 'order'])
  if (
    read.oneOf(o['kind'], 'objective.kind', ['weighted', 'lexicographic'], 'weighted') === 'lexicographic'
  ) {
    const order = read.list(o['order'], 'objective.order', (term, at) =>
      read.oneOf(term, at, objectiveTerms, 'makespan'),
    )
    if (order.length === 0 || new Set(order).size !== order.length) {
      read.fault(
        'objective.order',
        o['order'],
        `give each term at most once, of: ${objectiveTerms.join(', ')}`,
      )
    }
    return { kind: 'lexicographic', order }
  }
  const w = read.record(o['weights'] ?? {}, 'objective.weights', objectiveTerms)
  const weights = Object.fromEntries(
    objectiveTerms
      .filter((term) => term in w)
      .map((term) => [term, read.price(w[term], `objective.weights.${term}`, 0)]),
  )
  if (!Object.values(weights).some((weight) => weight > 0)) {
    read.fault('objective.weights', o['weights'], 'give at least one term a weight above 0')
  }
  return { kind: 'weighted', weights }
}

function readStability(read: JsonReader, value: unknown): Stability {
  const s = read.record(value ?? {}, 'stability', ['perMinuteMoved', 'perResourceChanged', 'fadesOutAt'])
  return {
    perMinuteMoved: read.price(s['perMinuteMoved'], 'stability.perMinuteMoved', 0.05),
    perResourceChanged: read.price(s['perResourceChanged'], 'stability.perResourceChanged', 15),
    fadesOutAt: read.wholeOrNull(s['fadesOutAt'], 'stability.fadesOutAt', { min: 1 }),
  }
}
