import { createHash } from 'node:crypto'
import {
  Problem,
  type BodyOf,
  type ParamsOf,
  type QueryOf,
  type ResultOf,
  type RouteContract,
} from '@clampclock/contracts'
import type { FastifyReply, FastifyRequest, preParsingAsyncHookHandler } from 'fastify'
import * as z from 'zod'
import type { Actor, Viewer } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import { inChain } from '../database/in-chain.ts'
import { readMark, type MarkAsked } from '../database/marks.ts'
import { message, type Reader } from '@clampclock/messages'
import { inWords } from '../words/words.ts'
import type { App } from './app-type.ts'
import { signedInActor } from './check-access.ts'
import { readerFor } from './reader.ts'
import { describeAnswer } from './answer-description.ts'
import { claimKey, idempotencyKeyOf, keepAnswer } from './idempotency.ts'
import type { Wire } from './kept-answers.ts'
import { ProblemError } from '../problems/problem-error.ts'

/** What a handler is given: the parsed request, who makes it, and the transaction that it runs in. */
export interface Call<Contract extends RouteContract> {
  readonly params: ParamsOf<Contract>
  readonly query: QueryOf<Contract>
  readonly body: BodyOf<Contract>
  readonly actor: Actor
  readonly tx: Tx
  readonly now: Date
  /** The version of If-Match; only on contracts that ask for it. */
  readonly version: number
  /** For what is made to be read as it is: documents and tables. Sentences in answers are put into words on their way out. */
  readonly reader: Reader
}

export type Handler<Contract extends RouteContract> = (call: Call<Contract>) => Promise<ResultOf<Contract>>

/** What a handler of a public route is given: nobody is signed in, so no chain and no transaction yet. */
export interface PublicCall<Contract extends RouteContract> {
  readonly body: BodyOf<Contract>
  readonly request: FastifyRequest
  readonly reply: FastifyReply
  readonly now: Date
}

/**
 * Registers a route from its contract: validation, documentation, sign-in, permission, one transaction, one answer.
 * The handler has no status codes and no `try`: what it throws rolls everything back and becomes a problem.
 */
export function bind<const Contract extends RouteContract>(
  app: App,
  contract: Contract,
  handler: Handler<Contract>,
): void {
  bindPrepared(app, contract, () => undefined, handler)
}

/**
 * As `bind`, for what takes long to read from the body (a hash over megabytes, or of a password): `prepare` works before the transaction
 * begins, so that nobody waits for a place in the database meanwhile.
 */
export function bindPrepared<const Contract extends RouteContract, Prepared>(
  app: App,
  contract: Contract,
  prepare: (body: BodyOf<Contract>, request: FastifyRequest) => Prepared,
  handler: (call: Call<Contract> & { readonly prepared: Awaited<Prepared> }) => Promise<ResultOf<Contract>>,
): void {
  app.route({
    method: contract.method,
    url: contract.path,
    schema: schemaOf(contract),
    config: reachOf(contract),
    ...(contract.bodyLimit === undefined ? {} : { bodyLimit: contract.bodyLimit }),
    handler: async (request, reply) => {
      const call = callOf(app, contract, request)
      const prepared = await prepare(call.body, request)
      const key =
        contract.method === 'POST' && !contract.answerIsSecret ? idempotencyKeyOf(request) : undefined
      const { actor } = call
      const answer = await inChain(app.database, actor.organization.id, async (tx) => {
        const fingerprint = key ? fingerprintOf(request) : ''
        if (key) {
          const kept = await claimKey(tx, actor, key, fingerprint)
          if (kept !== undefined) return kept
        }
        // Now, and not when the request came: it may have waited for its place in the database, or for its second try, and
        // must not judge by an instant before what it finds there.
        const now = app.clock()
        const wire = encoded(contract, call.reader, await handler({ ...call, now, tx, prepared }))
        if (key) await keepAnswer(tx, actor, { key, fingerprint, status: contract.status }, wire)
        return wire
      })
      return send(reply, contract, call.reader, answer)
    },
  })
}

export function bindPublic<const Contract extends RouteContract>(
  app: App,
  contract: Contract,
  handler: (call: PublicCall<Contract>) => Promise<ResultOf<Contract>>,
): void {
  app.route({
    method: contract.method,
    url: contract.path,
    schema: schemaOf(contract),
    config: { ...reachOf(contract), rateLimit: { max: 20, timeWindow: '1 minute' } },
    handler: async (request, reply) => {
      const result = await handler({
        body: request.body as BodyOf<Contract>,
        request,
        reply,
        now: app.clock(),
      })
      const reader = readerFor(request)
      return send(reply, contract, reader, encoded(contract, reader, result))
    },
  })
}

/** A document, to be made once the transaction is over: drawing takes time, and nobody should wait for it. */
export interface Answered {
  readonly name: string
  /** Where the contract only says of which kind. */
  readonly mediaType?: string
  /** The hash of what never changes, and that somebody else made: a browser keeps it, and lets it do nothing. */
  readonly unchanging?: string
  readonly render: () => Promise<Uint8Array>
}

/** As `bind`, for a contract whose answer is a document. */
export function bindDocument<const Contract extends RouteContract & { readonly mediaType: string }>(
  app: App,
  contract: Contract,
  handler: (call: Call<Contract>) => Promise<Answered>,
): void {
  app.route({
    method: contract.method,
    url: contract.path,
    schema: schemaOf(contract),
    config: reachOf(contract),
    handler: async (request, reply) => {
      const call = callOf(app, contract, request)
      const { name, mediaType, unchanging, render } = await inChain(
        app.database,
        call.actor.organization.id,
        (tx) => handler({ ...call, now: app.clock(), tx }),
      )
      if (unchanging !== undefined) asUnchanging(reply, unchanging)
      else reply.header('content-language', call.reader.language)
      if (unchanging !== undefined && request.headers['if-none-match']?.includes(`"${unchanging}"`))
        return reply.code(304).send()
      return reply
        .type(mediaType ?? contract.mediaType)
        .header('content-disposition', `inline; filename="${name}"`)
        .send(await render())
    },
  })
}

/** Kept for whoever has this sign-in alone; opened by itself it runs nothing and loads nothing. */
function asUnchanging(reply: FastifyReply, hash: string): void {
  reply
    .header('etag', `"${hash}"`)
    .header('cache-control', 'private, max-age=31536000, immutable')
    .header('vary', 'cookie, authorization')
    .header('content-security-policy', "default-src 'none'; sandbox")
    .header('x-content-type-options', 'nosniff')
}

/**
 * As `bind`, for what takes long and changes nothing: `read` gathers in a transaction, `compute` works after it, so that
 * nobody waits for a place in the database meanwhile. No Idempotency-Key, since asking twice does no harm.
 */
export function bindComputed<const Contract extends RouteContract, Question>(
  app: App,
  contract: Contract,
  read: (call: Call<Contract>) => Promise<Question>,
  compute: (question: Question) => Promise<ResultOf<Contract>>,
): void {
  app.route({
    method: contract.method,
    url: contract.path,
    schema: schemaOf(contract),
    config: reachOf(contract),
    handler: async (request, reply) => {
      const call = callOf(app, contract, request)
      const question = await inChain(app.database, call.actor.organization.id, (tx) =>
        read({ ...call, now: app.clock(), tx }),
      )
      const result = await compute(question)
      return send(reply, contract, call.reader, encoded(contract, call.reader, result))
    },
  })
}

/** What a handler of an answer that is kept is given. */
export interface KeptCall<Contract extends RouteContract> {
  readonly params: ParamsOf<Contract>
  readonly query: QueryOf<Contract>
  readonly viewer: Viewer
  readonly tx: Tx
  readonly now: Date
}

/** As `bind`, for what many screens ask for at once and again: an answer of this second is told again (kept-answers.ts). */
export function bindKept<const Contract extends RouteContract>(
  app: App,
  contract: Contract,
  madeFrom: (call: Pick<KeptCall<Contract>, 'params' | 'query'>) => MarkAsked,
  handler: (call: KeptCall<Contract>) => Promise<ResultOf<Contract>>,
): void {
  const { method, path: url, operationId } = contract
  app.route({
    method,
    url,
    schema: schemaOf(contract),
    config: reachOf(contract),
    handler: async (request, reply) => {
      const { params, query, actor, reader } = callOf(app, contract, request)
      const { organization, memberships, token } = actor
      const viewer: Viewer = { organization, memberships, token }
      const mark = await readMark(app.database, organization.id, madeFrom({ params, query }))
      // After the mark: what the mark knows of has happened by then, so that no answer as of an instant before a reading is
      // told to who asks after it.
      const now = app.clock()
      const key = JSON.stringify([operationId, params, query, viewer, reader])
      const wire = await app.answers.tell(key, mark, now, async () => {
        const result = await inChain(app.database, organization.id, (tx) =>
          handler({ params, query, viewer, tx, now }),
        )
        return wireOf(encoded(contract, reader, result))
      })
      return sendWire(reply, contract, reader, wire)
    },
  })
}

/** What a handler of a calculation is given: all that it needs is in the request. */
export interface StatelessCall<Contract extends RouteContract> {
  readonly params: ParamsOf<Contract>
  readonly query: QueryOf<Contract>
  readonly body: BodyOf<Contract>
}

/**
 * As `bind`, for what reads and keeps nothing: no transaction, and no Idempotency-Key, since asking twice does no
 * harm. `limiter` counts instead of the general limit, by who was found to ask.
 */
export function bindStateless<const Contract extends RouteContract>(
  app: App,
  contract: Contract,
  limiter: preParsingAsyncHookHandler,
  handler: (call: StatelessCall<Contract>) => ResultOf<Contract>,
): void {
  app.route({
    method: contract.method,
    url: contract.path,
    schema: schemaOf(contract),
    config: { ...reachOf(contract), rateLimit: false },
    preParsing: limiter,
    handler: async (request, reply) => {
      const result = handler({
        params: request.params as ParamsOf<Contract>,
        query: request.query as QueryOf<Contract>,
        body: request.body as BodyOf<Contract>,
      })
      const reader = readerFor(request)
      return send(reply, contract, reader, encoded(contract, reader, result))
    },
  })
}

function callOf<Contract extends RouteContract>(
  app: App,
  contract: Contract,
  request: FastifyRequest,
): Omit<Call<Contract>, 'tx'> {
  return {
    params: request.params as ParamsOf<Contract>,
    query: request.query as QueryOf<Contract>,
    body: request.body as BodyOf<Contract>,
    actor: signedInActor(request),
    now: app.clock(),
    version: contract.ifMatch ? versionOf(request) : 0,
    reader: readerFor(request),
  }
}

/** As it goes over the wire: sentences in the reader's words. */
function encoded<Contract extends RouteContract>(
  contract: Contract,
  reader: Reader,
  result: ResultOf<Contract>,
): unknown {
  return z.encode(contract.response, inWords(reader, result))
}

function send(reply: FastifyReply, contract: RouteContract, reader: Reader, answer: unknown): FastifyReply {
  if (contract.status === 204) return reply.code(contract.status).send()
  return sendWire(reply, contract, reader, wireOf(answer))
}

function wireOf(answer: unknown): Wire {
  const version = (answer as { version?: unknown } | null)?.version
  return { text: JSON.stringify(answer), version: typeof version === 'number' ? version : undefined }
}

function sendWire(
  reply: FastifyReply,
  { status }: RouteContract,
  { language }: Reader,
  { text, version }: Wire,
): FastifyReply {
  if (version !== undefined) reply.header('etag', `"${version}"`)
  reply.header('content-language', language)
  return reply.code(status).type('application/json; charset=utf-8').send(text)
}

function schemaOf(contract: RouteContract) {
  return {
    operationId: contract.operationId,
    tags: [contract.tag],
    summary: contract.summary,
    description: [contract.description, whoMay(contract)].filter(Boolean).join('\n\n'),
    ...(contract.params ? { params: contract.params } : {}),
    ...(contract.query ? { querystring: contract.query } : {}),
    ...(contract.body ? { body: contract.body } : {}),
    security: contract.access === 'public' ? [] : [{ cookie: [] }, { bearer: [] }],
    response: {
      [contract.status]: successOf(contract),
      '4xx': {
        description: 'Refused, with reasons',
        content: { 'application/problem+json': { schema: Problem } },
      },
      '5xx': { description: 'Server error', content: { 'application/problem+json': { schema: Problem } } },
    },
  }
}

/** Said with each route, as docs/access.md says it of all. */
function whoMay({ access, reach }: RouteContract): string {
  if (access === 'public') return 'Needs no sign-in.'
  if (access === 'signedIn') return 'For whoever has signed in.'
  return `Needs the permission \`${access}\`${reach === 'chain' ? ' in every shop of the chain' : ' in the shop that it reaches'}.`
}

function successOf(contract: RouteContract) {
  const { status, mediaType = 'application/json', response } = contract
  const description = describeAnswer(contract)
  if (status === 204) return z.null().describe(description)
  return { description, content: { [mediaType]: { schema: response } } }
}

/** Who may call, as the sign-in asks it before anything else is read. */
function reachOf({ access, reach, withTemporaryPassword }: RouteContract) {
  return { access, reach, withTemporaryPassword }
}

function versionOf(request: FastifyRequest): number {
  const header = request.headers['if-match']
  if (header === undefined) {
    throw new ProblemError('version-required', message('problem.sendVersion'), [
      {
        code: 'version-required',
        field: 'headers.if-match',
        message: message('problem.isMissing'),
        fix: message('problem.sendVersionFix'),
      },
    ])
  }
  const match = /^"(\d{1,9})"$/.exec(header.trim())
  if (!match) {
    throw new ProblemError('invalid-request', message('problem.ifMatch'), [
      {
        code: 'invalid',
        field: 'headers.if-match',
        message: message('problem.oneVersion'),
      },
    ])
  }
  return Number(match[1])
}

function fingerprintOf(request: FastifyRequest): string {
  return createHash('sha256')
    .update(`${request.method} ${request.url}\n${JSON.stringify(request.body ?? null)}`)
    .digest('hex')
}
