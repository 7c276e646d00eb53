import { message } from '@clampclock/messages'
import { ProblemError } from '../problems/problem-error.ts'

/** After an update that asked for a version: nothing updated means that somebody else was first. */
export function requireVersion(updated: number, present: number): void {
  if (updated > 0) return
  throw new ProblemError('stale-version', message('problem.staleVersion', { version: String(present) }), [
    {
      code: 'stale-version',
      field: 'headers.if-match',
      message: message('problem.versionIs', { version: String(present) }),
      fix: message('problem.readAgainFix'),
    },
  ])
}
