import type { Plan } from './plan.ts'
import { ProblemError } from './problem-error.ts'
import { JsonReader } from './read-json.ts'

/**
 * Reads the JSON form of a plan. Only the form is checked here; whether the plan keeps the problem's rules is for
 * `check` to say.
 * @throws ProblemError naming each faulty field.
 */
export function definePlan(input: unknown): Plan {
  const read = new JsonReader()
  const o = read.record(input, 'plan', ['tasks', 'holds', 'unplannedJobs'])
  const plan: Plan = {
    tasks: read.list(o['tasks'], 'tasks', (item, at) => {
      const t = read.record(item, at, ['taskId', 'start', 'end', 'mode', 'resources', 'overtime'])
      return {
        taskId: read.text(t['taskId'], `${at}.taskId`),
        start: read.whole(t['start'], `${at}.start`),
        end: read.whole(t['end'], `${at}.end`),
        mode: read.whole(t['mode'], `${at}.mode`, { otherwise: 0 }),
        resources: read.list(t['resources'], `${at}.resources`, (name, where) => read.text(name, where)),
        overtime: read.flag(t['overtime'], `${at}.overtime`),
      }
    }),
    holds: read.list(o['holds'], 'holds', (item, at) => {
      const h = read.record(item, at, ['holdId', 'resourceId', 'from', 'until'])
      return {
        holdId: read.text(h['holdId'], `${at}.holdId`),
        resourceId: read.text(h['resourceId'], `${at}.resourceId`),
        from: read.whole(h['from'], `${at}.from`),
        until: read.whole(h['until'], `${at}.until`),
      }
    }),
    unplannedJobs: read.list(o['unplannedJobs'], 'unplannedJobs', (name, at) => read.text(name, at)),
  }
  if (read.issues.length > 0) throw new ProblemError(read.issues)
  return plan
}
