import { accessRoutes as contracts, qualificationRoutes } from '@clampclock/contracts'
import type { App } from '../http/app-type.ts'
import { bind, bindPrepared, bindPublic } from '../http/bind.ts'
import { clearSessionCookie, setSessionCookie } from './authenticate.ts'
import { addPerson, editPerson, listPeople } from './people.ts'
import { addQualification, endQualification, listQualifications } from './qualifications.ts'
import { setPreferences } from './preferences.ts'
import { hashPassword } from './secrets.ts'
import { createFirstOwner, type SetUpCode } from './set-up.ts'
import { meOf, signIn, startSession } from './sign-in.ts'
import { addToken, listTokens, revokeToken } from './tokens.ts'

export async function accessRoutes(app: App, { setUpCode }: { setUpCode: SetUpCode }): Promise<void> {
  bindPublic(app, contracts.setUp, async ({ body, reply, now }) => {
    const owner = await createFirstOwner(app.database, setUpCode, body)
    const { me, token } = await startSession(app.database, owner, now)
    setSessionCookie(reply, token)
    return me
  })
  bindPublic(app, contracts.signIn, async ({ body, request, reply, now }) => {
    const signedIn = await signIn(app.database, { ...body, address: request.ip }, now)
    setSessionCookie(reply, signedIn.token)
    return signedIn
  })
  app.addHook('onSend', async (request, reply) => {
    if (request.routeOptions.config.url === contracts.signOut.path && reply.statusCode === 204)
      clearSessionCookie(reply)
  })
  bind(app, contracts.signOut, async ({ tx, actor }) => {
    if (actor.sessionHash) await tx.signInSession.deleteMany({ where: { secretHash: actor.sessionHash } })
    return null
  })
  bind(app, contracts.me, async ({ actor }) => meOf(actor))
  bind(app, contracts.setPreferences, ({ tx, actor, body }) => setPreferences(tx, actor, body))

  bind(app, contracts.listPeople, async ({ tx, actor }) => ({ items: await listPeople(tx, actor) }))
  const hashOf = ({ password }: { password?: string | undefined }) =>
    password === undefined ? undefined : hashPassword(password)
  bindPrepared(app, contracts.addPerson, hashOf, ({ tx, actor, body, prepared }) =>
    addPerson(tx, actor, body, prepared!),
  )
  bindPrepared(app, contracts.editPerson, hashOf, ({ tx, actor, params, body, now, prepared }) =>
    editPerson(tx, actor, params.personId, { ...body, passwordHash: prepared }, now),
  )

  bind(app, qualificationRoutes.listQualifications, async ({ tx, query }) => ({
    items: await listQualifications(tx, query.personId),
  }))
  bind(app, qualificationRoutes.addQualification, ({ tx, actor, params, body, now }) =>
    addQualification(tx, actor, params.personId, body, now),
  )
  bind(app, qualificationRoutes.endQualification, ({ tx, actor, params, body, now }) =>
    endQualification(tx, actor, params.qualificationId, body.reason, now),
  )

  bind(app, contracts.listAccessTokens, async ({ tx, actor }) => ({ items: await listTokens(tx, actor) }))
  bind(app, contracts.addAccessToken, ({ tx, actor, body, now }) => addToken(tx, actor, body, now))
  bind(app, contracts.revokeAccessToken, async ({ tx, actor, params, now }) => {
    await revokeToken(tx, actor, params.tokenId, now)
    return null
  })
}
