import type { ProblemCode, WireReason } from '@clampclock/contracts'
import { t } from '../lib/reader.ts'

interface ProblemBody {
  readonly type?: string
  readonly title?: string
  readonly status?: number
  readonly detail?: string
  readonly reasons?: readonly WireReason[]
}

/** The service answered with problem details (RFC 9457): it understood, and says why not. */
export class ProblemError extends Error {
  readonly code: ProblemCode | 'unknown'
  readonly status: number
  readonly reasons: readonly WireReason[]
  /** How long the service wants to be left alone, ms; undefined where it did not say. */
  readonly retryAfterMs: number | undefined

  constructor(
    code: ProblemCode | 'unknown',
    status: number,
    message: string,
    reasons: readonly WireReason[],
    retryAfterMs?: number,
  ) {
    super(message)
    this.name = 'ProblemError'
    this.code = code
    this.status = status
    this.reasons = reasons
    this.retryAfterMs = retryAfterMs
  }
}

/** No answer came: whether the request was carried out is not known. */
export class UnreachableError extends Error {
  constructor(cause: unknown) {
    super(t('api.theServiceCannotBeReached'), { cause })
    this.name = 'UnreachableError'
  }
}

/**
 * Reads a problem body, also one that a proxy on the way wrote in its own manner.
 *
 * @param retryAfter The header of that name, in seconds (RFC 9110, 10.2.3); a date in it is passed over.
 */
export function toProblemError(
  status: number,
  body: unknown,
  retryAfter: string | null = null,
): ProblemError {
  const problem = isRecord(body) ? (body as ProblemBody) : {}
  const code = (problem.type?.split('/').pop() ?? 'unknown') as ProblemCode | 'unknown'
  const message = problem.detail ?? problem.title ?? t('api.theServiceAnsweredWithStatus', { status })
  const seconds = retryAfter === null || retryAfter === '' ? Number.NaN : Number(retryAfter)
  const retryAfterMs = Number.isFinite(seconds) ? Math.max(0, seconds) * 1000 : undefined
  return new ProblemError(code, status, message, problem.reasons ?? [], retryAfterMs)
}

export function isProblem(error: unknown, code: ProblemCode): error is ProblemError {
  return error instanceof ProblemError && error.code === code
}

/** True when the same request may succeed if it is sent once more as it is. */
export function isWorthRetrying(error: unknown): boolean {
  return error instanceof UnreachableError || (error instanceof ProblemError && error.status >= 500)
}

/** True when nobody answered, or only a proxy that found nobody behind it. */
export function isNoAnswer(error: unknown): boolean {
  if (error instanceof UnreachableError) return true
  return error instanceof ProblemError && error.code === 'unknown' && [502, 503, 504].includes(error.status)
}

const FIRST_WAIT_MS = 1_000
const LONGEST_WAIT_MS = 60_000

/**
 * How long to wait before a question is asked once more, ms: as long as the service says, else a second, then two.
 *
 * @returns undefined where asking again would change nothing.
 */
export function waitBeforeAsking(failures: number, error: unknown): number | undefined {
  // Several screens of a shop share its address on the network, and with it what the service bears from one address.
  if (error instanceof ProblemError && error.status === 429)
    return Math.min(Math.max(error.retryAfterMs ?? 0, FIRST_WAIT_MS), LONGEST_WAIT_MS)
  return failures < 2 && isWorthRetrying(error) ? FIRST_WAIT_MS * 2 ** failures : undefined
}

export interface SortedReasons {
  /** By form field path, without the leading `body.`. */
  readonly byField: Readonly<Record<string, string>>
  readonly others: readonly WireReason[]
}

/** Puts each reason beside the field that it names, and keeps the rest for the top of the form. */
export function sortReasons(reasons: readonly WireReason[], fields: readonly string[]): SortedReasons {
  const byField: Record<string, string> = {}
  const others: WireReason[] = []
  for (const reason of reasons) {
    const path = nearestField(reason.field?.replace(/^body\./, ''), fields)
    if (path !== undefined && byField[path] === undefined) {
      byField[path] = reason.fix === undefined ? reason.message : `${reason.message} ${reason.fix}`
    } else others.push(reason)
  }
  return { byField, others }
}

/** The field itself, or the one that holds it: a form has one field where the wire has `printedExpiry.date`. */
function nearestField(path: string | undefined, fields: readonly string[]): string | undefined {
  let candidate = path
  while (candidate !== undefined && candidate !== '') {
    if (fields.includes(candidate)) return candidate
    candidate = candidate.includes('.') ? candidate.slice(0, candidate.lastIndexOf('.')) : undefined
  }
  return undefined
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null
}
