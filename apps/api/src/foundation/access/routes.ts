import { accessRoutes as contracts, qualificationRoutes } from '@clampclock/contracts'
import type { App } from '../http/app-type.ts'
import { bind, bindPrepared, bindPublic } from '../http/bind.ts'
import { clearSessionCookie, deviceOf, setSessionCookie } from './authenticate.ts'
import { addPerson, editPerson, listPeople } from './people.ts'
import { addQualification, endQualification, listQualifications } from './qualifications.ts'
import { setPreferences } from './preferences.ts'
import { requireGoodPassword } from './passwords.ts'
import { endSession, endSessions, listSessions, ownSession } from './sessions.ts'
import { changePassword, preparePassword } from './own-password.ts'
import { hashPassword } from './secrets.ts'
import { createFirstOwner, type SetUpCode } from './set-up.ts'
import { meOf, signIn, startSession } from './sign-in.ts'
import { addToken, listTokens, revokeToken } from './tokens.ts'

interface Given {
  readonly password?: string | undefined
  readonly name?: string | undefined
  readonly email?: string | undefined
}

export async function accessRoutes(app: App, { setUpCode }: { setUpCode: SetUpCode }): Promise<void> {
  bindPublic(app, contracts.setUp, async ({ body, request, reply, now }) => {
    const owner = await createFirstOwner(app.database, setUpCode, body)
    const { me, token } = await startSession(app.database, owner, deviceOf(request), now)
    setSessionCookie(reply, token)
    return me
  })
  bindPublic(app, contracts.signIn, async ({ body, request, reply, now }) => {
    const signedIn = await signIn(
      app.database,
      { ...body, address: request.ip, device: deviceOf(request) },
      now,
    )
    setSessionCookie(reply, signedIn.token)
    return signedIn
  })
  const over: readonly string[] = [contracts.signOut.path, contracts.signOutEverywhere.path]
  app.addHook('onSend', async ({ method, routeOptions }, reply) => {
    if (method === 'DELETE' && over.includes(routeOptions.url ?? '') && reply.statusCode === 204)
      clearSessionCookie(reply)
  })
  bind(app, contracts.signOut, async ({ tx, actor }) => {
    if (actor.session) await endSession(tx, actor, actor.session.id)
    return null
  })
  bind(app, contracts.listSessions, async ({ tx, actor, now }) => ({
    items: await listSessions(tx, actor, now),
  }))
  bind(app, contracts.endSession, async ({ tx, actor, params }) => {
    await endSession(tx, actor, params.sessionId)
    return null
  })
  bind(app, contracts.signOutEverywhere, async ({ tx, actor }) => {
    ownSession(actor)
    await endSessions(tx, actor.id)
    return null
  })
  bindPrepared(
    app,
    contracts.changePassword,
    (body, request) => preparePassword(app.database, request.actor!, body, request.ip, app.clock()),
    ({ tx, actor, prepared }) => changePassword(tx, actor, prepared),
  )
  bind(app, contracts.me, async ({ actor }) => meOf(actor))
  bind(app, contracts.setPreferences, ({ tx, actor, body }) => setPreferences(tx, actor, body))

  bind(app, contracts.listPeople, async ({ tx, actor }) => ({ items: await listPeople(tx, actor) }))
  const hashOf = ({ password, name = '', email = '' }: Given) => {
    if (password === undefined) return undefined
    requireGoodPassword(password, [name, email])
    return hashPassword(password)
  }
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
