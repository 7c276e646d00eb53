import * as z from 'zod'
import { saidOf, Words } from './words.ts'

/**
 * Every problem this service answers with: a closed list. The type on the wire is `/problems/<code>`;
 * docs/problems.md says what to do about each, and a test holds the two lists against one another.
 */
export const PROBLEMS = {
  'malformed-body': { status: 400, title: 'The body cannot be read' },
  'invalid-key': { status: 400, title: 'The Idempotency-Key cannot be read' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'wrong-credentials': { status: 401, title: 'The e-mail address or the password is wrong' },
  'not-permitted': { status: 403, title: 'Your role does not allow this' },
  'password-temporary': { status: 403, title: 'Choose a password of your own first' },
  'foreign-origin': { status: 403, title: 'Another site sent this' },
  'not-found': { status: 404, title: 'There is no such thing here' },
  'not-ready': { status: 409, title: 'Not at handling strength yet' },
  'bond-refused': { status: 409, title: 'The bond may not be started' },
  'reading-questioned': { status: 409, title: 'The reading is doubtful: confirm it or mend it' },
  'amount-questioned': { status: 409, title: 'Less than the joint needs: mend it or say why' },
  'sheet-questioned': { status: 409, title: 'The data sheet is doubtful: confirm it or mend it' },
  'bake-refused': { status: 409, title: 'The bake may not be booked' },
  'wrong-state': { status: 409, title: 'That does not fit its present state' },
  'booking-taken': { status: 409, title: 'The place is taken in that period' },
  'plan-outdated': { status: 409, title: 'The plan no longer fits what holds now' },
  'vehicles-left-out': { status: 409, title: 'The plan leaves vehicles out' },
  'stock-short': { status: 409, title: 'There is not that much on hand' },
  'already-exists': { status: 409, title: 'There is one already' },
  'key-in-use': { status: 409, title: 'The same request is still being worked on' },
  'changed-meanwhile': { status: 409, title: 'Somebody else changed it at the same moment' },
  'setup-closed': { status: 409, title: 'The first owner exists already' },
  'stale-version': { status: 412, title: 'Somebody changed it since you read it' },
  'too-large': { status: 413, title: 'The request is too large' },
  'unsupported-media-type': { status: 415, title: 'Send application/json' },
  'invalid-request': { status: 422, title: 'The request does not match the contract' },
  'key-reused': { status: 422, title: 'The Idempotency-Key was used for another request' },
  'version-required': { status: 428, title: 'Send If-Match with the version you read' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  internal: { status: 500, title: 'Something went wrong here' },
  overloaded: { status: 503, title: 'The service is busy' },
} as const satisfies Record<string, { status: number; title: string }>

export type ProblemCode = keyof typeof PROBLEMS

/** One reason among several: what is wrong, with which field, and what would put it right. */
export const ProblemReason = z
  .object({
    code: z.string().describe('Stable: programs may switch on it'),
    message: Words.describe('One sentence for a person, with the numbers'),
    field: z.string().optional().describe('The field of the request, as a path: body.points.0.temperatureC'),
    fix: Words.optional(),
    said: saidOf('message', 'fix'),
    overridable: z.boolean().optional().describe('A person with the right may go on with a written reason'),
  })
  .meta({ id: 'ProblemReason' })
export type ProblemReason = z.output<typeof ProblemReason>
/** As it is answered: in the words of whoever asked. */
export type WireReason = z.input<typeof ProblemReason>

/** RFC 9457 problem details. */
export const Problem = z
  .object({
    type: z.string().describe('/problems/<code>, a stable identifier'),
    title: Words,
    status: z.number().int(),
    detail: Words.optional(),
    instance: z.string().optional(),
    reasons: z.array(ProblemReason),
    said: saidOf('title', 'detail'),
  })
  .meta({ id: 'Problem' })
export type Problem = z.output<typeof Problem>
