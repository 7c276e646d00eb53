import { ProblemError } from '../problems/problem-error.ts'

/** After an update that asked for a version: nothing updated means that somebody else was first. */
export function requireVersion(updated: number, present: number): void {
  if (updated > 0) return
  throw new ProblemError(
    'stale-version',
    `Somebody changed it since you read it: it is at version "${present}" now`,
    [
      {
        code: 'stale-version',
        field: 'headers.if-match',
        message: `the version is "${present}" now`,
        fix: 'Read it again, and repeat your change if it still fits',
      },
    ],
  )
}
