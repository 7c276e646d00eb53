export interface ProblemIssue {
  /** Where, as a path into the JSON form: `tasks[3].modes[0].work`. */
  readonly field: string
  readonly value: unknown
  /** What it must be instead. */
  readonly fix: string
}

const show = (value: unknown): string => {
  if (value === undefined) return 'missing'
  const text = JSON.stringify(value) ?? typeof value
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}

/** A problem or plan that breaks a rule of its form. Lists every fault found. */
export class ProblemError extends Error {
  readonly issues: readonly ProblemIssue[]

  constructor(issues: readonly ProblemIssue[]) {
    super(issues.map((issue) => `${issue.field}: ${show(issue.value)}; ${issue.fix}`).join('\n'))
    this.name = 'ProblemError'
    this.issues = issues
  }
}
