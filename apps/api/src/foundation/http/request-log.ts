import type { FastifyRequest } from 'fastify'

/** Secrets say what they are: one in a path that no route has is found by its beginning. */
const SECRET = /cc_(session|token|feed)_[\w-]+/g

/**
 * A request as the log has it: the path without its query, which may carry a set-up code, what was searched for, or what
 * somebody typed into the wrong place.
 */
export function logged({ method, url, host, ip }: FastifyRequest): Record<string, string> {
  const path = url.split('?', 1)[0] ?? url
  return { method, path: path.replaceAll(SECRET, 'cc_$1_…'), host, remoteAddress: ip }
}
