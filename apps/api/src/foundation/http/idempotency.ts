import type { FastifyRequest } from 'fastify'
import type { Actor } from '../permissions/actor.ts'
import type { Tx } from '../database/database.ts'
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
    throw new ProblemError(
      'invalid-key',
      'Idempotency-Key must be 1 to 128 printable characters in double quotes',
      [
        {
          code: 'invalid',
          field: 'headers.idempotency-key',
          message: 'must be 1 to 128 printable characters in double quotes',
        },
      ],
    )
  }
  return match[1]
}

/**
 * Claims the key inside the request's own transaction: the first request gets it (undefined), a retry gets the
 * stored answer. A retry while the first still runs waits for it, as the row is locked by the key.
 *
 * @throws {ProblemError} `key-reused` when the key came with another request before.
 */
export async function claimKey(tx: Tx, actor: Actor, key: string, fingerprint: string): Promise<unknown> {
  const claimed = await tx.$queryRaw<unknown[]>`
    insert into idempotency_key (organization_id, actor_id, key, request_hash)
    values (${actor.organization.id}::uuid, ${actor.id}::uuid, ${key}, ${fingerprint})
    on conflict do nothing returning 1`
  if (claimed.length > 0) return undefined

  const kept = await tx.idempotencyKey.findUniqueOrThrow({
    where: { organizationId_actorId_key: { organizationId: actor.organization.id, actorId: actor.id, key } },
  })
  if (kept.requestHash !== fingerprint) {
    throw new ProblemError(
      'key-reused',
      'This Idempotency-Key was used for another request: take a new one for each thing you do',
    )
  }
  return (kept.response as { wire: unknown }).wire
}

export async function keepAnswer(
  tx: Tx,
  actor: Actor,
  key: string,
  status: number,
  wire: unknown,
): Promise<void> {
  await tx.idempotencyKey.update({
    where: { organizationId_actorId_key: { organizationId: actor.organization.id, actorId: actor.id, key } },
    // Wrapped, so that an answer of null is told from no answer.
    data: { status, response: { wire } as object },
  })
}
