import { isWorthRetrying, ProblemError } from '../../api/problem.ts'
import { questionsOf } from '../../features/readings/questions.ts'
import { amountQuestionOf } from './amount-question.ts'

/** The instants of 'Adhesive is on' on one form, ISO 8601; a press is one act however often it is sent. */
export interface Press {
  /** Of a press that is not settled: no answer came, or one that does not say whether it counts. */
  readonly openAt?: string | undefined
  /** Of the first press that the service refused. */
  readonly refusedAt?: string | undefined
}

/**
 * Since when the adhesive has been on. A press that is not settled may have happened, and is sent again as it was. One
 * that was refused did not happen: the next is a new one, unless it says that the adhesive was on all the same.
 */
export function instantOf({ openAt, refusedAt }: Press, isOnAlready: boolean, now: () => string): string {
  return openAt ?? (isOnAlready ? refusedAt : undefined) ?? now()
}

/** What is kept of a press at `at` once it came to this error. */
export function pressAfter(press: Press, at: string, error: Error): Press {
  if (!isSettledBy(error)) return { ...press, openAt: at }
  return { openAt: undefined, refusedAt: press.refusedAt ?? at }
}

/** A question does not take the adhesive off again; nor does having to sign in, or to wait. */
function isSettledBy(error: Error): boolean {
  // Not of the service: it never got there.
  if (!(error instanceof ProblemError)) return false
  if (isWorthRetrying(error) || [401, 429].includes(error.status)) return false
  return !isQuestion(error)
}

/** Whether the service asks something about it, and has not refused it. */
export function isQuestion(error: Error): boolean {
  return questionsOf(error).length > 0 || amountQuestionOf(error) !== undefined
}
