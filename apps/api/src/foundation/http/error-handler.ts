import type { ProblemReason } from '@clampclock/contracts'
import { message, type Message } from '@clampclock/messages'
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod'
import { fieldSentence } from './field-words.ts'
import { inWords } from '../words/words.ts'
import { readerFor } from './reader.ts'
import { constraintProblem } from '../database/constraint-problems.ts'
import { firstOf, problemBody, ProblemError } from '../problems/problem-error.ts'

/** Every error leaves as problem details; what is not expected is logged once and told without detail. */
export const errorHandler = fp(
  async (app: FastifyInstance) => {
    app.setErrorHandler(answerProblem)
    app.setNotFoundHandler({ preHandler: app.rateLimit() }, (request, reply) =>
      sendProblem(
        request,
        reply,
        new ProblemError(
          'not-found',
          message('problem.noRoute', { method: request.method, path: pathOf(request) }),
        ),
      ),
    )
  },
  { name: 'error-handler', dependencies: ['@fastify/rate-limit'] },
)

export function answerProblem(
  error: FastifyError,
  request: FastifyRequest,
  reply: FastifyReply,
): FastifyReply {
  const problem = asProblem(error, request.routeOptions.bodyLimit)
  if (problem.status >= 500) request.log.error({ err: error }, 'request failed')
  return sendProblem(request, reply, problem)
}

function sendProblem(request: FastifyRequest, reply: FastifyReply, problem: ProblemError): FastifyReply {
  const reader = readerFor(request)
  if (problem.retryAfterSeconds !== undefined) reply.header('retry-after', problem.retryAfterSeconds)
  return reply
    .code(problem.status)
    .type('application/problem+json')
    .header('content-language', reader.language)
    .send(JSON.stringify(inWords(reader, problemBody(problem, pathOf(request)))))
}

/** Without the query: it may carry what does not belong in logs and error pages. */
function pathOf(request: FastifyRequest): string {
  return request.url.split('?', 1)[0] ?? request.url
}

function tooLarge(bodyLimit: number): Message {
  return message('problem.bodyTooLarge', { mebibytes: bodyLimit / (1024 * 1024) })
}

function asProblem(error: FastifyError, bodyLimit: number): ProblemError {
  if (error instanceof ProblemError) return error
  if (hasZodFastifySchemaValidationErrors(error)) {
    const context = error.validationContext === 'querystring' ? 'query' : (error.validationContext ?? 'body')
    return invalidRequest(
      error.validation.map((issue) => reasonOf(context, issue.instancePath, issue.message)),
    )
  }
  const fromDatabase = constraintProblem(error)
  if (fromDatabase) return fromDatabase

  switch (error.code) {
    case 'FST_ERR_CTP_INVALID_JSON_BODY':
    case 'FST_ERR_CTP_EMPTY_JSON_BODY':
    case 'FST_ERR_CTP_INVALID_CONTENT_LENGTH':
      return new ProblemError('malformed-body', message('problem.badJson'), [
        {
          code: 'malformed',
          field: 'body',
          message: message('problem.badJson'),
          fix: message('problem.validJsonFix'),
        },
      ])
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return new ProblemError('unsupported-media-type', message('problem.title.unsupported-media-type'), [
        { code: 'media-type', field: 'headers.content-type', message: message('problem.mediaType') },
      ])
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return new ProblemError('too-large', tooLarge(bodyLimit), [
        {
          code: 'too-large',
          field: 'body',
          message: tooLarge(bodyLimit),
          fix: message('problem.inPartsFix'),
        },
      ])
    default:
  }
  if (error.statusCode === 429) return new ProblemError('too-many-requests', message('problem.tooMany'))
  if (error.statusCode === 503) return new ProblemError('overloaded', message('problem.busy'))
  // Whatever else a parser or plugin blames on the caller (a body cut short, a bad escape in the address).
  if (error.statusCode && error.statusCode >= 400 && error.statusCode < 500) {
    return new ProblemError('malformed-body', message('problem.unreadable'), [
      { code: 'malformed', field: 'body', message: message('problem.unreadable') },
    ])
  }
  return new ProblemError('internal', message('problem.internal'))
}

function invalidRequest(reasons: ProblemReason[]): ProblemError {
  return new ProblemError('invalid-request', firstOf(reasons), reasons)
}

function reasonOf(context: string, instancePath: string, says: string | undefined): ProblemReason {
  const path = instancePath.split('/').filter(Boolean).join('.')
  return {
    code: 'invalid',
    field: path ? `${context}.${path}` : context,
    message: fieldSentence(says ?? 'is not valid', path),
  }
}
