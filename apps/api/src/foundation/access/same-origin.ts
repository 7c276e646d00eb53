import { message } from '@clampclock/messages'
import type { FastifyRequest } from 'fastify'
import { ProblemError } from '../problems/problem-error.ts'

const SAFE: readonly string[] = ['GET', 'HEAD', 'OPTIONS']

/**
 * Refuses what another site made a browser send: a second lock beside the cookie's SameSite, and the only one where no
 * cookie is needed yet, at signing in. The browser's own word counts first (Fetch Metadata), which it sends over https and
 * on the own machine; else the Origin is held against the host that was asked. What is no browser sends neither, and what
 * carries its secret itself no browser added.
 *
 * @throws {ProblemError} `foreign-origin`.
 */
export async function requireSameOrigin(request: FastifyRequest): Promise<void> {
  const { method, headers } = request
  if (SAFE.includes(method) || headers.authorization !== undefined) return
  const site = headers['sec-fetch-site']
  if (site === 'same-origin' || site === 'none') return
  const { origin } = headers
  if (site === undefined && (origin === undefined || ownOrigins(request).includes(hostOf(origin)))) return
  throw new ProblemError('foreign-origin', message('setup-problem.foreignOrigin'), [
    {
      code: 'foreign-origin',
      field: 'headers.origin',
      message: message('setup-problem.foreignOrigin'),
      fix: message('setup-problem.foreignOriginFix'),
    },
  ])
}

/** The host that was asked, and the one that people are told. */
function ownOrigins({ host, server }: FastifyRequest): (string | undefined)[] {
  const { publicUrl } = server.config
  return [host, publicUrl === undefined ? undefined : new URL(publicUrl).host]
}

/** `null` is what a browser sends for a page without an origin of its own. */
function hostOf(origin: string): string | undefined {
  return URL.canParse(origin) ? new URL(origin).host : ''
}
