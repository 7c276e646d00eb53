import type { FastifyRequest } from 'fastify'
import type { Actor } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
import { message } from '@clampclock/messages'
import { ProblemError } from '../problems/problem-error.ts'

/**
 * The Idempotency-Key of a request, if it carries one: a structured-field string in double quotes
 * (IETF draft-ietf-httpapi-idempotency-key-header). A bare token is taken too, since many clients send one.
 */
export function idempotencyKeyOf(request: FastifyRequest): string | undefined {
  const header = request.headers['idempotency-key']
  if (header === undefined) return undefined
  const text = Array.isArray(header) ? header.join(',') : header
  const match =
    /^"([\x20\x21\x23-\x5b\x5d-\x7e]{1,128})"$/.exec(text) ?? /^([A-Za-z0-9._~-]{1,128})$/.exec(text)
  if (!match?.[1]) {
    throw new ProblemError('invalid-key', message('problem.idempotencyKey'), [
      {
        code: 'invalid',
        field: 'headers.idempotency-key',
        message: message('problem.printableCharacters'),
      },
    ])
  }
  return match[1]
}

/**
 * Claims the key inside the request's own transaction: the first request gets it (undefined), a retry gets the stored
 * answer. A retry while the first still runs waits until that has ended. Nothing is written yet: whether there is anything to
 * keep shows when the request is through.
 *
 * @throws {ProblemError} `key-reused` when the key came with another request before.
 */
export async function claimKey(tx: Tx, actor: Actor, key: string, fingerprint: string): Promise<unknown> {
  const whole = `${actor.organization.id} ${actor.id} ${key}`
  await tx.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${whole}, 0))`
  const kept = await tx.idempotencyKey.findUnique({
    where: { organizationId_actorId_key: { organizationId: actor.organization.id, actorId: actor.id, key } },
  })
  if (kept === null) return undefined
  if (kept.requestHash !== fingerprint) {
    throw new ProblemError('key-reused', message('problem.keyReused'))
  }
  return (kept.response as { wire: unknown }).wire
}

/**
 * Keeps what the first request was answered. Where it has changed nothing there is nothing to keep: asked again, it may be
 * answered anew. (A transaction gets its number with its first change.)
 */
export async function keepAnswer(
  tx: Tx,
  actor: Actor,
  { key, fingerprint, status }: { key: string; fingerprint: string; status: number },
  wire: unknown,
): Promise<void> {
  // Wrapped, so that an answer of null is told from no answer.
  await tx.$executeRaw`
    insert into idempotency_key (organization_id, actor_id, key, request_hash, status, response)
    select ${actor.organization.id}::uuid, ${actor.id}::uuid, ${key}, ${fingerprint}, ${status}::int, ${JSON.stringify({ wire })}::jsonb
     where pg_current_xact_id_if_assigned() is not null`
}
