import { message } from '@clampclock/messages'
import { randomBytes } from 'node:crypto'
import type { accessRoutes, BodyOf } from '@clampclock/contracts'
import type { Database } from '../database/database.ts'
import { ProblemError } from '../problems/problem-error.ts'
import { requireGoodPassword } from './passwords.ts'
import { hashPassword, hashSecret } from './secrets.ts'

/** Known only to who can read the server's output; a new one at each start while nobody exists. */
export class SetUpCode {
  readonly value = randomBytes(9).toString('base64url')
}

export async function nobodyExists(database: Database): Promise<boolean> {
  return (await database.prisma.person.findFirst({ select: { id: true } })) === null
}

/** @throws {ProblemError} When somebody exists already, or the code is wrong. */
export async function createFirstOwner(
  database: Database,
  code: SetUpCode,
  body: BodyOf<typeof accessRoutes.setUp>,
) {
  // By hashes, so that the time it takes tells nothing of the code.
  if (hashSecret(body.setupCode) !== hashSecret(code.value)) {
    throw new ProblemError('wrong-credentials', message('setup-problem.setupCodeWrong'), [
      {
        code: 'wrong',
        field: 'body.setupCode',
        message: message('setup-problem.notSetupCode'),
      },
    ])
  }
  requireGoodPassword(body.password, [body.name, body.email])
  const passwordHash = await hashPassword(body.password)
  return database.prisma.$transaction(async (tx) => {
    // Two owners at once: the second waits here, and then finds the first.
    await tx.$executeRaw`select pg_advisory_xact_lock(7246002)`
    if (await tx.person.findFirst({ select: { id: true } }))
      throw new ProblemError('setup-closed', message('setup-problem.firstOwnerExists'))
    const organization = await tx.organization.create({ data: { name: body.organizationName } })
    const person = await tx.person.create({
      data: { organizationId: organization.id, name: body.name, email: body.email, passwordHash },
    })
    await tx.membership.create({
      data: { organizationId: organization.id, personId: person.id, shopId: null, role: 'owner' },
    })
    return person
  })
}
