import { message } from '@clampclock/messages'
import type { accessRoutes, BodyOf, ResultOf, TokenScope } from '@clampclock/contracts'
import type { AccessToken } from '../../generated/prisma/client.ts'
import type { Tx } from '../database/database.ts'
import { invalidField, notFound, ProblemError } from '../problems/problem-error.ts'
import { coversGrant, type Actor } from '../permissions/actor.ts'
import { mayManage, requireToGrant } from '../permissions/reach.ts'
import { hashSecret, newSecret } from './secrets.ts'

type Listed = ResultOf<typeof accessRoutes.listAccessTokens>['items'][number]

/** Those that the actor could have made: who keeps one shop doesn't learn what the chain's programs are called. */
export async function listTokens(tx: Tx, actor: Actor): Promise<Listed[]> {
  const rows = await tx.accessToken.findMany({ orderBy: [{ createdAt: 'desc' }, { id: 'asc' }] })
  return rows.map(toListed).filter((token) => keeps(actor, token))
}

function keeps(actor: Actor, { scope, shopId }: { scope: TokenScope; shopId: string | null }): boolean {
  return mayManage(actor, shopId) && coversGrant(actor, { holder: scope, shopId })
}

export async function addToken(
  tx: Tx,
  actor: Actor,
  body: BodyOf<typeof accessRoutes.addAccessToken>,
  now: Date,
): Promise<ResultOf<typeof accessRoutes.addAccessToken>> {
  if (actor.kind !== 'person')
    throw new ProblemError('not-permitted', message('setup-problem.onlyPersonMakesTokens'))
  if (body.shopId && !(await tx.shop.findUnique({ where: { id: body.shopId } })))
    throw invalidField('body.shopId', message('problem.noShopOfChain'))
  requireToGrant(actor, { shopId: body.shopId, holder: body.scope })
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

export async function revokeToken(tx: Tx, actor: Actor, id: string, now: Date): Promise<void> {
  const token = await tx.accessToken.findUnique({ where: { id } })
  if (!token || !keeps(actor, toListed(token))) throw notFound('token', id)
  await tx.accessToken.update({ where: { id }, data: { revokedAt: token.revokedAt ?? now } })
}

function toListed({ id, name, scope, shopId, createdAt, lastUsedAt, revokedAt }: AccessToken): Listed {
  return { id, name, scope: scope as TokenScope, shopId, createdAt, lastUsedAt, revokedAt }
}
