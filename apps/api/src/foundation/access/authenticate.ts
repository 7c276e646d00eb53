import { message } from '@clampclock/messages'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { checkAccess } from '../http/check-access.ts'
import { ProblemError } from '../problems/problem-error.ts'
import type { Actor } from '../permissions/actor.ts'
import { requireSameOrigin } from './same-origin.ts'
import { rotateSession } from './sessions.ts'
import { SESSION_DAYS, type Device } from './sign-in.ts'
import { actorOfSecret } from './store.ts'

const COOKIE = 'clampclock_session'

/** Finds out who asks, before anything of the request is read, and whether they may. */
export const authenticate = fp(
  async (app: FastifyInstance) => {
    app.decorateRequest('actor', null)
    // A route of the API that forgot to say who may call it would be open to all: it does not even start.
    app.addHook('onRoute', (route) => {
      const { url, config } = route
      if (url.startsWith('/v1/') && config?.access === undefined)
        throw new Error(`${url} does not say who may call it`)
      if (config?.access === undefined) return
      // Of the route, and after the limit of requests that is there already: who sends bad secrets is counted, too.
      route.onRequest = [...[route.onRequest ?? []].flat(), requireSameOrigin]
      if (config.access !== 'public') route.onRequest.push(identify)
    })
  },
  { name: 'authenticate', dependencies: ['@fastify/cookie'] },
)

async function identify(request: FastifyRequest, reply: FastifyReply): Promise<void> {
  const actor = await actorOf(request)
  request.actor = actor
  checkAccess(request)
  // A program that sends its secret itself could not be told another.
  if (!actor?.session?.isToRotate || request.headers.authorization !== undefined) return
  // Nor can a stream, which sends its headers past the reply.
  if (request.routeOptions.config.isStream) return
  const { database, clock } = request.server
  const secret = await rotateSession(database, actor.session.id, clock())
  if (secret !== undefined) setSessionCookie(reply, secret)
}

/** What a browser tells of itself when somebody signs in with it. */
export function deviceOf({ headers, cookies }: FastifyRequest): Device {
  return { userAgent: headers['user-agent'] ?? '', secret: cookies[COOKIE] }
}

/** Whose secret a request carries, as it stands now: long-lived streams ask again. */
export async function actorOf(request: FastifyRequest): Promise<Actor | null> {
  const secret = secretOf(request)
  const { database, clock } = request.server
  return secret ? actorOfSecret(database, secret, clock()) : null
}

function secretOf(request: FastifyRequest): string | undefined {
  const header = request.headers.authorization
  if (header === undefined) return request.cookies[COOKIE]
  const match = /^Bearer ([A-Za-z0-9_-]{20,200})$/i.exec(header)
  if (!match) throw new ProblemError('not-signed-in', message('setup-problem.bearer'))
  return match[1]
}

/** Strict: the cookie never travels with a request that another site started. */
export function setSessionCookie(reply: FastifyReply, token: string): void {
  void reply.setCookie(COOKIE, token, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: reply.server.config.secureCookies,
    maxAge: SESSION_DAYS * 86_400,
  })
}

export function clearSessionCookie(reply: FastifyReply): void {
  void reply.clearCookie(COOKIE, { path: '/' })
}
