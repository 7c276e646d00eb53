import { ReadingFindingKind, type ProblemReason } from '@clampclock/contracts'
import { celsiusToFahrenheit, fahrenheitToCelsius } from '@clampclock/quantities'
import { isProblem } from '../../api/problem.ts'

/** What the service asks about temperatures; empty for any other answer. */
export function questionsOf(error: Error | null): readonly ProblemReason[] {
  return isProblem(error, 'reading-questioned') ? error.reasons : []
}

/** Their kinds, to be sent along once somebody stands by them. */
export function confirmedOf(questions: readonly ProblemReason[]): ReadingFindingKind[] {
  return questions.flatMap(({ code }) => {
    const kind = ReadingFindingKind.safeParse(code)
    return kind.success ? [kind.data] : []
  })
}

/** What was meant if only the unit slipped, degC; undefined where that is not the question. */
export function meantC(questions: readonly ProblemReason[], valueC: number | undefined): number | undefined {
  if (valueC === undefined) return undefined
  if (questions.some(({ code }) => code === 'fahrenheit')) return tenth(fahrenheitToCelsius(valueC))
  if (questions.some(({ code }) => code === 'celsius')) return tenth(celsiusToFahrenheit(valueC))
  return undefined
}

function tenth(c: number): number {
  return Math.round(c * 10) / 10
}
