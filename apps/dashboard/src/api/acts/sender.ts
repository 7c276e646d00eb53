import { mayStillGo } from '../outbox.ts'
import { ProblemError, UnreachableError } from '../problem.ts'
import type { Act, KeptProblem, Silence } from './act.ts'
import { afterAnswer, afterRefusal, afterSilence, afterSlowness, dueActs, nextDueMs } from './queue.ts'
import type { ActStore } from './store.ts'

interface Options {
  readonly store: ActStore
  /** Sends it once. Must do the same once, however often it is called with one act. */
  readonly post: (act: Act, signal: AbortSignal) => Promise<unknown>
  /** Whose acts may go; undefined while nobody is signed in. */
  readonly personId: () => string | undefined
  readonly nowMs: () => number
  /** Told after each step, with what became of the act once the service has answered. */
  readonly onStep: (answered?: { readonly act: Act; readonly isSent: boolean }) => void
}

export interface Sender {
  /** Sends whatever is due. @returns when to look again, ms since 1970; undefined where nothing waits. */
  readonly drain: () => Promise<number | undefined>
  /** While it drains: there may be something new. */
  readonly poke: () => void
}

/** Of different joints; more would only stand in each other's way on a slow network. */
const AT_ONCE = 3
const ANSWER_WITHIN_MS = 20_000
/** By then whoever pressed is told that it is kept, and need not stand there. */
const SLOW_AFTER_MS = 5_000
const FIRST_PAUSE_MS = 1_000
const LONGEST_PAUSE_MS = 15_000

/**
 * Sends acts in the order of their presses, for each joint one after the other. What gets no answer is sent again as it
 * was; what is refused stays with its reason, and stops what was pressed after it at the same joint.
 */
export function createSender({ store, post, personId, nowMs, onStep }: Options): Sender {
  let wake: () => void = () => undefined

  async function drain(): Promise<number | undefined> {
    const busy = new Map<string, Promise<void>>()
    for (;;) {
      const poked = new Promise<void>((resolve) => (wake = resolve))
      const acts = await store.all()
      const person = personId()
      if (person !== undefined)
        for (const act of dueActs(acts, person, nowMs(), new Set(busy.keys())))
          if (busy.size < AT_ONCE)
            busy.set(
              act.id,
              attempt(act).finally(() => busy.delete(act.id)),
            )
      if (busy.size === 0) return person === undefined ? undefined : nextDueMs(acts, person)
      await Promise.race([...busy.values(), poked])
    }
  }

  async function attempt(act: Act): Promise<void> {
    const slow = setTimeout(() => {
      const changed = store.change((acts) => ({ put: afterSlowness(acts, act.id) }))
      void changed.then(() => onStep()).catch(() => undefined)
    }, SLOW_AFTER_MS)
    const step = await outcomeOf(act)
    clearTimeout(slow)
    try {
      await store.change((acts) => ({ put: step.changed(acts) }))
      onStep(step.isSent === undefined ? undefined : { act, isSent: step.isSent })
    } catch {
      // The device could not write it down: it is sent again, under the same key, and not at once.
      await new Promise((resolve) => setTimeout(resolve, FIRST_PAUSE_MS))
    }
  }

  async function outcomeOf(act: Act) {
    try {
      await post(act, AbortSignal.timeout(ANSWER_WITHIN_MS))
      return { isSent: true, changed: (acts: readonly Act[]) => afterAnswer(acts, act.id, now()) }
    } catch (error) {
      if (mayStillGo(error)) {
        const dueMs = nowMs() + pauseMs(act.tries, error)
        return {
          isSent: undefined,
          changed: (acts: readonly Act[]) => afterSilence(acts, act.id, silenceOf(error), dueMs),
        }
      }
      return {
        isSent: false,
        changed: (acts: readonly Act[]) => afterRefusal(acts, act.id, problemOf(error), now()),
      }
    }
  }

  const now = () => new Date(nowMs()).toISOString()
  return { drain, poke: () => wake() }
}

function pauseMs(tries: number, error: unknown): number {
  const asked = error instanceof ProblemError ? (error.retryAfterMs ?? 0) : 0
  return Math.max(Math.min(FIRST_PAUSE_MS * 2 ** tries, LONGEST_PAUSE_MS), Math.min(asked, 60_000))
}

function silenceOf(error: unknown): Silence {
  if (!(error instanceof ProblemError)) return 'noAnswer'
  if (error.status === 401 || error.code === 'password-temporary') return 'signedOut'
  // A proxy that found nobody behind it is nobody's answer.
  if (error.code === 'unknown' && error.status >= 502) return 'noAnswer'
  return error.status >= 500 ? 'serverError' : 'busy'
}

function problemOf(error: unknown): KeptProblem {
  if (error instanceof ProblemError) {
    const { code, status, message, reasons } = error
    return { code, status, message, reasons }
  }
  // Nothing that a network does: a fault of this page, kept like a refusal so that the act is not lost with it.
  return {
    code: 'unknown',
    status: 0,
    message: error instanceof Error ? error.message : new UnreachableError(error).message,
    reasons: [],
  }
}
