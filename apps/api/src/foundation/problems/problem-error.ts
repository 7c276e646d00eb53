import { message, type Message } from '@clampclock/messages'
import { inEnglish } from '../words/words.ts'
import { PROBLEMS, type Problem, type ProblemCode, type ProblemReason } from '@clampclock/contracts'

/** An expected refusal: thrown anywhere below a route, sent as problem details (RFC 9457). */
export class ProblemError extends Error {
  readonly code: ProblemCode
  readonly detail: Message
  readonly reasons: readonly ProblemReason[]
  /** Sent as Retry-After, seconds; only on what passes by itself. */
  readonly retryAfterSeconds: number | undefined

  constructor(
    code: ProblemCode,
    detail: Message,
    reasons: readonly ProblemReason[] = [],
    retryAfterSeconds?: number,
  ) {
    // For the log; whoever asked is told in his own words.
    super(inEnglish(detail))
    this.name = 'ProblemError'
    this.code = code
    this.detail = detail
    this.reasons = reasons
    this.retryAfterSeconds = retryAfterSeconds
  }

  get status(): number {
    return PROBLEMS[this.code].status
  }
}

export function problemBody(error: ProblemError, instance: string): Problem {
  const { status } = PROBLEMS[error.code]
  const title = message(`problem.title.${error.code}`)
  return {
    type: `/problems/${error.code}`,
    title,
    status,
    detail: error.detail,
    instance,
    reasons: [...error.reasons],
  }
}

export function notFound(what: string, id: string): ProblemError {
  // 'repair order' is `repairOrder` where words are chosen by it.
  const key = what.toLowerCase().replaceAll(/ (\w)/g, (_, letter: string) => letter.toUpperCase())
  return new ProblemError('not-found', message('problem.notFound', { what: key, id }))
}

/** One field of the request is wrong in a way that only the database could tell. */
export function invalidField(field: string, message: Message, fix?: Message): ProblemError {
  return new ProblemError('invalid-request', message, [
    { code: 'invalid', field, message, ...(fix ? { fix } : {}) },
  ])
}

/** The first reason, with the field that it is about. */
export function firstOf([first]: readonly ProblemReason[]): Message {
  if (first === undefined) return message('problem.title.invalid-request')
  return message('problem.ofField', { field: first.field ?? 'request', what: { message: first.message } })
}

/** Several fields, each with its own reason. */
export function invalidFields(reasons: readonly ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', firstOf(reasons), reasons)
}

export function wrongState(detail: Message, fix?: Message): ProblemError {
  return new ProblemError('wrong-state', detail, [
    { code: 'wrong-state', message: detail, ...(fix ? { fix } : {}) },
  ])
}
