import * as z from 'zod'
import { Role, TokenScope } from './permissions.ts'
import { defineRoute } from './route.ts'
import { Id, Instant, Label } from './values.ts'

export const Email = z.string().trim().toLowerCase().max(254).pipe(z.email('must be an e-mail address'))
/** Long beats complicated (NIST SP 800-63B): twelve characters, no other rule. */
export const NewPassword = z
  .string()
  .min(12, 'must be at least 12 characters')
  .max(200, 'must be at most 200 characters')

/** `shopId` null: in every shop of the chain. */
export const Membership = z.object({ shopId: Id.nullable(), role: Role }).meta({ id: 'Membership' })
export type Membership = z.output<typeof Membership>

/** How a person reads. Null in each: as the browser says, and to other programs as the shop does. */
export const Preferences = z
  .strictObject({
    language: z.enum(['en', 'es']).nullable(),
    temperature: z.enum(['C', 'F']).nullable(),
    volume: z.enum(['mL', 'flOz']).nullable(),
    length: z.enum(['mm', 'in']).nullable(),
    clock: z.enum(['24h', '12h']).nullable(),
    firstDay: z
      .int('must be a day of the week, 1 for Monday to 7 for Sunday')
      .min(1, 'must be a day of the week, 1 for Monday to 7 for Sunday')
      .max(7, 'must be a day of the week, 1 for Monday to 7 for Sunday')
      .nullable()
      .describe('Of the week: 1 Monday to 7 Sunday (ISO 8601)'),
  })
  .meta({ id: 'Preferences' })
export type Preferences = z.output<typeof Preferences>

export const Me = z
  .object({
    kind: z.enum(['person', 'token']),
    id: Id,
    name: z.string(),
    email: z.string().nullable(),
    organization: z.object({ id: Id, name: z.string() }),
    memberships: z.array(Membership),
    scope: TokenScope.nullable(),
    preferences: Preferences,
    mustChangePassword: z
      .boolean()
      .describe('An owner set the password: nothing else is open until another was chosen'),
  })
  .meta({ id: 'Me' })
export type Me = z.output<typeof Me>

export const Person = z
  .object({
    id: Id,
    name: z.string(),
    email: z.string(),
    memberships: z.array(Membership),
    disabledAt: Instant.nullable(),
  })
  .meta({ id: 'Person' })

export const AccessToken = z
  .object({
    id: Id,
    name: z.string(),
    scope: TokenScope,
    shopId: Id.nullable(),
    createdAt: Instant,
    lastUsedAt: Instant.nullable(),
    revokedAt: Instant.nullable(),
  })
  .meta({ id: 'AccessToken' })

/** One of a person's own sign-ins. */
export const OwnSession = z
  .object({
    id: Id,
    device: z.object({
      kind: z.enum(['phone', 'computer', 'program']),
      userAgent: z.string().describe('As the browser or program called itself'),
    }),
    createdAt: Instant,
    lastUsedAt: Instant.describe('To the minute'),
    expiresAt: Instant,
    isCurrent: z.boolean().describe('The one that asks'),
  })
  .meta({ id: 'OwnSession' })
export type OwnSession = z.output<typeof OwnSession>

export const NewMembership = z.strictObject({ shopId: Id.nullable(), role: Role })
const personParams = z.object({ personId: Id })
const Nothing = z.null()

export const accessRoutes = {
  setUp: defineRoute({
    method: 'POST',
    path: '/v1/setup',
    operationId: 'setUp',
    tag: 'access',
    summary: 'Create the chain and its first owner',
    description: 'Only while nobody exists, and with the setup code that the server printed at its start.',
    access: 'public',
    body: z.strictObject({
      setupCode: z.string().max(100),
      organizationName: Label,
      name: Label,
      email: Email,
      password: NewPassword,
    }),
    status: 201,
    response: Me,
  }),
  signIn: defineRoute({
    method: 'POST',
    path: '/v1/sessions',
    operationId: 'signIn',
    tag: 'access',
    summary: 'Sign in: sets a cookie, and answers a bearer token for programs',
    access: 'public',
    body: z.strictObject({ email: Email, password: z.string().min(1).max(200) }),
    answer: 'Who signed in, and a bearer token for programs',
    status: 201,
    response: z.object({ me: Me, token: z.string(), expiresAt: Instant }),
  }),
  signOut: defineRoute({
    method: 'DELETE',
    path: '/v1/sessions/current',
    operationId: 'signOut',
    tag: 'access',
    summary: 'Sign out',
    access: 'signedIn',
    withTemporaryPassword: true,
    status: 204,
    response: Nothing,
  }),
  me: defineRoute({
    method: 'GET',
    path: '/v1/me',
    operationId: 'getMe',
    tag: 'access',
    summary: 'Who am I, and what may I do where',
    access: 'signedIn',
    withTemporaryPassword: true,
    status: 200,
    response: Me,
  }),
  changePassword: defineRoute({
    method: 'PUT',
    path: '/v1/me/password',
    operationId: 'changePassword',
    tag: 'access',
    summary: 'Change my password',
    description: 'Asks for the present one, and ends every other session. A token has no password.',
    access: 'signedIn',
    withTemporaryPassword: true,
    body: z.strictObject({ present: z.string().min(1).max(200), password: NewPassword }),
    status: 204,
    response: Nothing,
  }),
  listSessions: defineRoute({
    method: 'GET',
    path: '/v1/me/sessions',
    operationId: 'listSessions',
    tag: 'access',
    summary: 'Where I am signed in',
    access: 'signedIn',
    status: 200,
    response: z.object({ items: z.array(OwnSession) }),
  }),
  endSession: defineRoute({
    method: 'DELETE',
    path: '/v1/me/sessions/:sessionId',
    operationId: 'endSession',
    tag: 'access',
    summary: 'Sign out one device of mine',
    access: 'signedIn',
    params: z.object({ sessionId: Id }),
    status: 204,
    response: Nothing,
  }),
  signOutEverywhere: defineRoute({
    method: 'DELETE',
    path: '/v1/me/sessions',
    operationId: 'signOutEverywhere',
    tag: 'access',
    summary: 'Sign out every device of mine, this one too',
    access: 'signedIn',
    status: 204,
    response: Nothing,
  }),
  setPreferences: defineRoute({
    method: 'PUT',
    path: '/v1/me/preferences',
    operationId: 'setPreferences',
    tag: 'access',
    summary: 'In which language, units and clock I read',
    description: 'A value in an answer keeps its unit (degC, mL, mm): these are for who shows it.',
    access: 'signedIn',
    body: Preferences,
    status: 200,
    response: Preferences,
  }),
  listPeople: defineRoute({
    method: 'GET',
    path: '/v1/people',
    operationId: 'listPeople',
    tag: 'access',
    summary: 'Everybody in the chain',
    access: 'readShop',
    status: 200,
    response: z.object({ items: z.array(Person) }),
  }),
  addPerson: defineRoute({
    method: 'POST',
    path: '/v1/people',
    operationId: 'addPerson',
    tag: 'access',
    summary: 'Add a person with roles',
    access: 'manageChain',
    body: z.strictObject({
      name: Label,
      email: Email,
      password: NewPassword,
      mustChangePassword: z.boolean().default(false).describe('At the first sign-in'),
      memberships: z.array(NewMembership).min(1, 'give at least one role').max(100),
    }),
    status: 201,
    response: Person,
  }),
  editPerson: defineRoute({
    method: 'PATCH',
    path: '/v1/people/:personId',
    operationId: 'editPerson',
    tag: 'access',
    summary: 'Change roles, reset a password, or shut a person out',
    description:
      'A password that is set here must be changed at the next sign-in, and ends the person’s sessions. For one’s own there is changePassword.',
    access: 'manageChain',
    params: personParams,
    body: z.strictObject({
      name: Label.optional(),
      password: NewPassword.optional(),
      memberships: z.array(NewMembership).min(1).max(100).optional(),
      disabled: z.boolean().optional(),
    }),
    status: 200,
    response: Person,
  }),
  listAccessTokens: defineRoute({
    method: 'GET',
    path: '/v1/accessTokens',
    operationId: 'listAccessTokens',
    tag: 'access',
    summary: 'Tokens of sensors and integrations',
    access: 'manageChain',
    status: 200,
    response: z.object({ items: z.array(AccessToken) }),
  }),
  addAccessToken: defineRoute({
    method: 'POST',
    path: '/v1/accessTokens',
    operationId: 'addAccessToken',
    tag: 'access',
    summary: 'Make a token; its secret is shown this once',
    access: 'manageChain',
    body: z.strictObject({ name: Label, scope: TokenScope, shopId: Id.nullable().default(null) }),
    answerIsSecret: true,
    answer: 'The token with its secret, which is shown this once',
    status: 201,
    response: AccessToken.extend({ secret: z.string() }),
  }),
  revokeAccessToken: defineRoute({
    method: 'DELETE',
    path: '/v1/accessTokens/:tokenId',
    operationId: 'revokeAccessToken',
    tag: 'access',
    summary: 'Revoke a token',
    access: 'manageChain',
    params: z.object({ tokenId: Id }),
    status: 204,
    response: Nothing,
  }),
}
