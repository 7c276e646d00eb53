import type { WireReason } from '@clampclock/contracts'
import { isProblem } from '../../api/problem.ts'

/** That less adhesive goes on than the joint needs; undefined for any other answer. */
export function amountQuestionOf(error: Error | null): WireReason | undefined {
  return isProblem(error, 'amount-questioned') ? error.reasons[0] : undefined
}

/** Among what a check asks, which may be about temperatures too. */
export function isAboutAmount({ code }: WireReason): boolean {
  return code === 'belowNeed'
}
