import type { Permission } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import type { FastifyRequest } from 'fastify'
import { maySomewhere, requireInChain, type Actor } from '../permissions/actor.ts'
import { ProblemError } from '../problems/problem-error.ts'

export function signedInActor(request: FastifyRequest): Actor {
  if (!request.actor) throw new ProblemError('not-signed-in', message('problem.signIn'))
  return request.actor
}

/** Runs before a body is even read, so that a stranger learns nothing about the contract's insides. */
export function checkAccess(request: FastifyRequest): void {
  const { access, reach, withTemporaryPassword } = request.routeOptions.config
  if (access === undefined || access === 'public') return
  const actor = signedInActor(request)
  requireActing(request, actor)
  if (actor.session?.mustChangePassword && !withTemporaryPassword)
    throw new ProblemError('password-temporary', message('problem.title.password-temporary'), [
      {
        code: 'password-temporary',
        message: message('problem.title.password-temporary'),
        fix: message('setup-problem.temporaryFix'),
      },
    ])
  if (access === 'signedIn') return
  if (maySomewhere(actor, access)) {
    if (reach === 'chain') requireInChain(actor, access)
    return
  }
  throw new ProblemError(
    'not-permitted',
    message('problem.needsPermission', { permission: access satisfies Permission }),
    [
      {
        code: access,
        message: message('problem.noRoleCarries', { permission: access }),
        fix: message('problem.askOwnerOfChainFix'),
      },
    ],
  )
}

/**
 * A device that several people use may send what one of them did while another has signed in: `Acting-Person` names whose
 * act it is, and in somebody else's name it is not done.
 */
function requireActing(request: FastifyRequest, actor: Actor): void {
  const acting = request.headers['acting-person']
  if (acting === undefined || acting === actor.id) return
  throw new ProblemError('not-signed-in', message('problem.signInAsTheOne'))
}
