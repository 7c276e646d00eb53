import { PROBLEMS, type Problem, type ProblemCode, type ProblemReason } from '@clampclock/contracts'

/** An expected refusal: thrown anywhere below a route, sent as problem details (RFC 9457). */
export class ProblemError extends Error {
  readonly code: ProblemCode
  readonly reasons: readonly ProblemReason[]

  constructor(code: ProblemCode, detail: string, reasons: readonly ProblemReason[] = []) {
    super(detail)
    this.name = 'ProblemError'
    this.code = code
    this.reasons = reasons
  }

  get status(): number {
    return PROBLEMS[this.code].status
  }
}

export function problemBody(error: ProblemError, instance: string): Problem {
  const { status, title } = PROBLEMS[error.code]
  return {
    type: `/problems/${error.code}`,
    title,
    status,
    detail: error.message || title,
    instance,
    reasons: [...error.reasons],
  }
}

export function notFound(what: string, id: string): ProblemError {
  return new ProblemError('not-found', `There is no ${what} ${id} here`)
}

/** One field of the request is wrong in a way that only the database could tell. */
export function invalidField(field: string, message: string, fix?: string): ProblemError {
  return new ProblemError('invalid-request', message, [
    { code: 'invalid', field, message, ...(fix ? { fix } : {}) },
  ])
}

/** Several fields, each with its own reason. */
export function invalidFields(reasons: readonly ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', `${reasons[0]?.field}: ${reasons[0]?.message}`, reasons)
}

export function wrongState(detail: string, fix?: string): ProblemError {
  return new ProblemError('wrong-state', detail, [
    { code: 'wrong-state', message: detail, ...(fix ? { fix } : {}) },
  ])
}
