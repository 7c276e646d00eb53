import { ROUTES } from '@clampclock/contracts'
import { useNavigate } from '@tanstack/react-router'
import { useRef } from 'react'
import { happenedNow } from '../../api/client.ts'
import { isWorthRetrying, ProblemError } from '../../api/problem.ts'
import { deviceNow, elapsedMs, type DeviceInstant } from '../../api/server-clock.ts'
import type { Joint, RepairOrderDetail, ResultOf } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { FRESH_MS } from '../../features/bonds/freshness.ts'
import { questionsOf } from '../../features/readings/questions.ts'
import { amountQuestionOf, isAboutAmount } from './amount-question.ts'
import { applicationOf, type Draft } from './application.ts'

type Check = ResultOf<typeof ROUTES.checkBond>

export interface Bonding {
  readonly check: (draft: Draft) => void
  /** Whether the answer of 'Check' is of what the form holds now, and of the last minute. */
  readonly isCurrent: (draft: Draft) => boolean
  readonly start: (draft: Draft) => void
  /** The adhesive is on although a gate refuses: what happened, in words. */
  readonly record: (draft: Draft, happened: string) => void
  /** Gates refused the start. */
  readonly isRefused: boolean
  readonly isChecking: boolean
  readonly isStarting: boolean
  /** The last answer of 'Check'; undefined once a start has been tried. */
  readonly answer: Check | undefined
  readonly error: Error | null
  /** Every reason against it, from whichever was asked last. */
  readonly reasons: readonly Check['reasons'][number][]
  /** What is doubtful of the temperatures, from whichever was asked last. */
  readonly questions: readonly Check['questions'][number][]
  /** That less goes on than the joint needs, where nobody has said why. */
  readonly amountQuestion: Check['questions'][number] | undefined
}

/** Checking and starting a bond, with the instant of the first press kept until the service has answered. */
export function useStartBond(
  joint: Joint,
  job: RepairOrderDetail,
  cartridges: readonly { readonly id: string; readonly remainingMl: number }[],
): Bonding {
  const navigate = useNavigate()
  // Pressed again after silence, the adhesive has still been on since the first press.
  const pressedAt = useRef<string>(undefined)
  const refusedAt = useRef<string>(undefined)
  const checkedFor = useRef<{ readonly asked: string; readonly at: DeviceInstant }>(undefined)
  const checking = useAction(ROUTES.checkBond, { topics: [] })
  const starting = useAction(ROUTES.startBond, {
    topics: ['bonds', 'repairs', 'stock', 'bookings', 'alerts'],
    onDone: () => void navigate({ to: '/jobs/$repairOrderId', params: { repairOrderId: job.id } }),
  })
  const params = { jointId: joint.id }
  const start = (draft: Draft, happened?: string) => {
    // What is on although it was refused has been on since it was first said to be.
    pressedAt.current ??= (happened === undefined ? undefined : refusedAt.current) ?? happenedNow()
    const body = applicationOf(draft, cartridges, pressedAt.current, happened)
    if (body === undefined) return
    checking.reset()
    starting.mutate(
      { params, body },
      {
        onError: (error) => {
          // A question about a temperature or the amount does not take the adhesive off again.
          if (isWorthRetrying(error) || isQuestion(error)) return
          refusedAt.current = pressedAt.current
          pressedAt.current = undefined
        },
      },
    )
  }
  return {
    check: (draft) => {
      const body = applicationOf(draft, cartridges, undefined)
      if (body === undefined) return
      starting.reset()
      checkedFor.current = { asked: askedOf(draft), at: deviceNow() }
      checking.mutate({ params, body })
    },
    isCurrent: (draft) => {
      const checked = checkedFor.current
      return checked?.asked === askedOf(draft) && elapsedMs(checked.at) < FRESH_MS
    },
    start,
    record: start,
    isRefused: starting.error instanceof ProblemError && starting.error.code === 'bond-refused',
    isChecking: checking.isPending,
    isStarting: starting.isPending,
    answer: checking.data,
    error: starting.error ?? checking.error,
    reasons: reasonsOf(starting.error) ?? checking.data?.reasons ?? [],
    questions:
      starting.error === null
        ? (checking.data?.questions ?? []).filter((question) => !isAboutAmount(question))
        : questionsOf(starting.error),
    amountQuestion:
      starting.error === null
        ? checking.data?.questions.find(isAboutAmount)
        : amountQuestionOf(starting.error),
  }
}

/** What the answer rests on: everything but what was written against it since. */
function askedOf({
  overrides: _overrides,
  confirmed: _confirmed,
  shortBecause: _short,
  ...rest
}: Draft): string {
  return JSON.stringify(rest)
}

function isQuestion(error: Error): boolean {
  return questionsOf(error).length > 0 || amountQuestionOf(error) !== undefined
}

function reasonsOf(error: Error | null): Bonding['reasons'] | undefined {
  if (!(error instanceof ProblemError)) return undefined
  return isQuestion(error) ? [] : error.reasons
}
