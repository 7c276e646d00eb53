import { message } from '@clampclock/messages'
import { sentences } from '../../foundation/words/params.ts'
import type { ProblemReason } from '@clampclock/contracts'
import { isEnoughMl, wholeMl } from '@clampclock/quantities'
import { ProblemError } from '../../foundation/problems/problem-error.ts'
import { toMl, toUl } from '../../foundation/database/volumes.ts'
import type { Gates } from './gates.ts'
import { amountNeededMl, type JointRow } from '../../work/index.ts'

/** What goes on a joint from all its cartridges, and what it needs, both as the ledger counts them. */
export interface AmountOnJoint {
  readonly amountUl: number
  readonly neededUl: number
  /** Less in whole mL, as they are written and read. */
  readonly isShort: boolean
}

export function amountOnJoint(joint: JointRow, { cartridges }: Pick<Gates, 'cartridges'>): AmountOnJoint {
  const amountUl = toUl(cartridges.reduce((sum, { amountMl }) => sum + amountMl, 0))
  const neededUl = toUl(amountNeededMl(joint))
  return { amountUl, neededUl, isShort: !isEnoughMl(toMl(amountUl), toMl(neededUl)) }
}

/** Asked until somebody says why. An amount changes no cure time, so the answer makes nothing ready sooner. */
export function amountQuestions(
  { amountUl, neededUl, isShort }: AmountOnJoint,
  confirmed: { readonly reason: string } | null,
): ProblemReason[] {
  if (!isShort || confirmed) return []
  const recorded = Number(toMl(amountUl).toFixed(1))
  return [
    {
      code: 'belowNeed',
      field: 'body.amountMl',
      message: message('cure-problem.belowNeed', {
        recorded: { millilitres: recorded, digits: Number.isInteger(recorded) ? 0 : 1 },
        needed: { millilitres: wholeMl(toMl(neededUl)) },
      }),
      fix: message('cure-problem.shortAmountFix'),
    },
  ]
}

/** @throws {ProblemError} `amount-questioned`, with both figures. */
export function requireEnough(amount: AmountOnJoint, confirmed: { readonly reason: string } | null): void {
  const questions = amountQuestions(amount, confirmed)
  if (questions.length === 0) return
  throw new ProblemError('amount-questioned', sentences(questions.map((each) => each.message)), questions)
}
