import { SheetQuestionKind, type ProblemReason } from '@clampclock/contracts'
import { isProblem } from '../../api/problem.ts'

/** What the service asks about a data sheet; empty for any other answer. */
export function questionsOf(error: Error | null): readonly ProblemReason[] {
  return isProblem(error, 'sheet-questioned') ? error.reasons : []
}

/** Their kinds, each once, to be sent along once somebody has compared with the printed sheet. */
export function confirmedOf(questions: readonly ProblemReason[]): SheetQuestionKind[] {
  const kinds = questions.flatMap(({ code }) => {
    const kind = SheetQuestionKind.safeParse(code)
    return kind.success ? [kind.data] : []
  })
  return [...new Set(kinds)]
}
