import type { accessRoutes, BodyOf, ResultOf, TokenScope } from '@clampclock/contracts'
import type { AccessToken } from '../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound, ProblemError } from '../http/problem-error.ts'
import type { Actor } from './actor.ts'
import { hashSecret, newSecret } from './secrets.ts'

type Listed = ResultOf<typeof accessRoutes.listAccessTokens>['items'][number]

export async function listTokens(tx: Tx): Promise<Listed[]> {
  return (await tx.accessToken.findMany({ orderBy: [{ createdAt: 'desc' }, { id: 'asc' }] })).map(toListed)
}

export async function addToken(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof accessRoutes.addAccessToken>,
  now: Date,
): Promise<ResultOf<typeof accessRoutes.addAccessToken>> {
  if (actor.kind !== 'person') throw new ProblemError('not-permitted', 'Only a person makes tokens')
  if (body.shopId && !(await tx.shop.findUnique({ where: { id: body.shopId } })))
    throw invalidField('body.shopId', 'names no shop of this chain')
  const secret = newSecret('token')
  const token = await tx.accessToken.create({
    data: {
      ...body,
      organizationId: actor.organization.id,
      secretHash: hashSecret(secret),
      createdBy: actor.id,
      createdAt: now,
    },
  })
  return { ...toListed(token), secret }
}

export async function revokeToken(tx: Tx, id: string, now: Date): Promise<void> {
  const token = await tx.accessToken.findUnique({ where: { id } })
  if (!token) throw notFound('token', id)
  await tx.accessToken.update({ where: { id }, data: { revokedAt: token.revokedAt ?? now } })
}

function toListed({ id, name, scope, shopId, createdAt, lastUsedAt, revokedAt }: AccessToken): Listed {
  return { id, name, scope: scope as TokenScope, shopId, createdAt, lastUsedAt, revokedAt }
}
