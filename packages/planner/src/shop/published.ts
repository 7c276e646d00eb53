import type { Plan } from '../model/plan.ts'
import type { Board } from './board.ts'
import type { Compiled } from './compiled.ts'

/** Where things stood in the published plan, in indices; what it doesn't know is -1. */
export interface Published {
  readonly start: Int32Array
  readonly end: Int32Array
  readonly mode: Int32Array
  readonly overtime: Uint8Array
  readonly taken: Int32Array
  readonly holdResource: Int32Array
}

export function publishedFrom(compiled: Compiled, plan: Plan): Published {
  const { problem, width, holds } = compiled
  const resourceIndex = new Map(problem.resources.map((resource, r) => [resource.id, r]))
  const taskIndex = new Map(problem.tasks.map((task, i) => [task.id, i]))
  const holdIndex = new Map(problem.holds.map((hold, h) => [hold.id, h]))
  const n = problem.tasks.length
  const published: Published = {
    start: new Int32Array(n).fill(-1),
    end: new Int32Array(n),
    mode: new Int32Array(n),
    overtime: new Uint8Array(n),
    taken: new Int32Array(n * width).fill(-1),
    holdResource: new Int32Array(holds.length).fill(-1),
  }
  for (const entry of plan.tasks) {
    const i = taskIndex.get(entry.taskId)
    if (i === undefined) continue
    published.start[i] = entry.start
    published.end[i] = entry.end
    published.mode[i] = entry.mode
    published.overtime[i] = entry.overtime ? 1 : 0
    entry.resources.forEach((name, d) => {
      if (d < width) published.taken[i * width + d] = resourceIndex.get(name) ?? -1
    })
  }
  for (const entry of plan.holds) {
    const h = holdIndex.get(entry.holdId)
    if (h !== undefined) published.holdResource[h] = resourceIndex.get(entry.resourceId) ?? -1
  }
  return published
}

/** Puts a group back exactly where it was published, when every rule still allows that; else leaves it off. */
export function placeAsPublished(board: Board, published: Published, g: number): boolean {
  const { groups } = board.compiled
  const { tasks, holds } = groups[g]!
  for (const i of tasks) {
    if (placeTask(board, published, i)) continue
    board.removeGroup(g)
    return false
  }
  for (const h of holds) {
    if (placeHold(board, published, h)) continue
    board.removeGroup(g)
    return false
  }
  // The rate of a task may depend on what is held, which is known only now.
  if (tasks.every((i) => board.compiled.isFixed[i] === 1 || lastsAsPublished(board, i))) return true
  board.removeGroup(g)
  return false
}

function placeTask(board: Board, published: Published, i: number): boolean {
  const { compiled } = board
  const { isFixed, earliest, latestEnd, lagsIn, lagsOut, modes, width, family } = compiled
  if (isFixed[i] === 1) return true
  const start = published.start[i]!
  const end = published.end[i]!
  const mode = modes[i]![published.mode[i]!]
  if (start < earliest[i]! || end > latestEnd[i]! || !mode) return false
  for (const lag of lagsIn[i]!) {
    const anchor = lag.afterEnd ? board.end[lag.other]! : board.start[lag.other]!
    if (start - anchor < lag.min || start - anchor > lag.max) return false
  }
  for (const lag of lagsOut[i]!) {
    if (isFixed[lag.other] === 0) continue
    const wait = board.start[lag.other]! - (lag.afterEnd ? end : start)
    if (wait < lag.min || wait > lag.max) return false
  }
  for (let d = 0; d < mode.demands.length; d++) {
    const r = published.taken[i * width + d]!
    if (r < 0 || board.timelines[r]!.conflict(start, end, mode.demands[d]!.units, family[i]!) >= 0)
      return false
  }
  board.start[i] = start
  board.end[i] = end
  board.mode[i] = published.mode[i]!
  board.overtime[i] = published.overtime[i]!
  for (let d = 0; d < width; d++) board.taken[i * width + d] = published.taken[i * width + d]!
  board.bookTask(i)
  return true
}

function placeHold(board: Board, published: Published, h: number): boolean {
  if (board.isFixedHold(h)) return true
  const { fixedResource, from, until, untilEnd } = board.compiled.holds[h]!
  const resource = fixedResource >= 0 ? fixedResource : published.holdResource[h]!
  const end = untilEnd ? board.end[until]! : board.start[until]!
  if (resource < 0 || board.holdConflict(h, resource, board.start[from]!, end) >= 0) return false
  board.bookHold(h, resource, board.start[from]!, end)
  return true
}

function lastsAsPublished(board: Board, i: number): boolean {
  const { modes, width, breaks, calendarOf, effective } = board.compiled
  const mode = modes[i]![board.mode[i]!]!
  const used = board.taken.subarray(i * width, i * width + mode.demands.length)
  const calendars = breaks[i] === 'pause' ? Array.from(used, (r) => calendarOf[r]!).filter((c) => c >= 0) : []
  const profile = effective(
    board.profileOf(i, board.mode[i]!, used),
    calendars,
    board.overtime[i] === 1 ? 1 : 0,
  )
  return profile.finish(board.start[i]!, mode.work) === board.end[i]!
}
