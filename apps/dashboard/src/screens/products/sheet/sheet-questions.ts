import type { WireReason, SheetQuestionKind } from '@clampclock/contracts'
import { SHEET_QUESTION_KINDS } from '../../../api/contracts.ts'
import { isProblem } from '../../../api/problem.ts'

/** What the service asks about a data sheet; empty for any other answer. */
export function questionsOf(error: Error | null): readonly WireReason[] {
  return isProblem(error, 'sheet-questioned') ? error.reasons : []
}

/** Their kinds, each once, to be sent along once somebody has compared with the printed sheet. */
export function confirmedOf(questions: readonly WireReason[]): SheetQuestionKind[] {
  const kinds = questions.flatMap(({ code }) => SHEET_QUESTION_KINDS.filter((kind) => kind === code))
  return [...new Set(kinds)]
}
