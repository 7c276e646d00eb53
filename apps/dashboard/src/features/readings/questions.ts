import type { WireReason, ReadingFindingKind } from '@clampclock/contracts'
import { celsiusToFahrenheit, fahrenheitToCelsius } from '@clampclock/quantities'
import { READING_FINDING_KINDS } from '../../api/contracts.ts'
import { isProblem } from '../../api/problem.ts'

/** What the service asks about temperatures; empty for any other answer. */
export function questionsOf(error: Error | null): readonly WireReason[] {
  return isProblem(error, 'reading-questioned') ? error.reasons : []
}

/** Their kinds, to be sent along once somebody stands by them. */
export function confirmedOf(questions: readonly WireReason[]): ReadingFindingKind[] {
  const kinds = questions.flatMap(({ code }) => READING_FINDING_KINDS.filter((kind) => kind === code))
  return [...new Set(kinds)]
}

/** Which slip of the unit there can be in a field of this unit. */
const SLIP = { C: 'fahrenheit', F: 'celsius' } as const

/** Those worth showing: nobody typed degF into a field that takes degF. All of them where nothing else is asked. */
export function shownIn(questions: readonly WireReason[], unit: 'C' | 'F'): readonly WireReason[] {
  const impossible = SLIP[unit === 'C' ? 'F' : 'C']
  const others = questions.filter(({ code }) => code !== impossible)
  return others.length > 0 ? others : questions
}

/** What was meant if only the unit slipped, degC; undefined where that is not the question. */
export function meantC(
  questions: readonly WireReason[],
  valueC: number | undefined,
  unit: 'C' | 'F',
): number | undefined {
  if (valueC === undefined || !questions.some(({ code }) => code === SLIP[unit])) return undefined
  return tenth(unit === 'C' ? fahrenheitToCelsius(valueC) : celsiusToFahrenheit(valueC))
}

function tenth(c: number): number {
  return Math.round(c * 10) / 10
}
