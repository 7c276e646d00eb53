import { ROUTES } from '../../api/contracts.ts'
import { useNavigate } from '@tanstack/react-router'
import { useEffect, useState } from 'react'
import { useAct } from '../../api/acts/use-act.ts'
import { happenedNow } from '../../api/client.ts'
import { isProblem, ProblemError } from '../../api/problem.ts'
import { deviceNow, elapsedMs } from '../../api/server-clock.ts'
import type { Joint, RepairOrderDetail, ResultOf } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { FRESH_MS } from '../../features/bonds/freshness.ts'
import { questionsOf } from '../../features/readings/questions.ts'
import { amountQuestionOf, isAboutAmount } from './amount-question.ts'
import { applicationOf, type Draft } from './application.ts'
import { isSame, type Asked } from './asked.ts'
import { instantOf, isQuestion, pressAfter, type Press } from './press.ts'

type Check = ResultOf<typeof ROUTES.checkBond>

export interface Bonding {
  readonly check: (draft: Draft) => void
  /** Whether the last answer is of what the form holds now, and of the last minute. */
  readonly isCurrent: boolean
  /** Whether something that the last answer rests on is another since. */
  readonly isChanged: boolean
  readonly start: (draft: Draft) => void
  /** The adhesive is on although a gate refuses: what happened, in words. */
  readonly record: (draft: Draft, happened: string) => void
  /** Gates refused the start. */
  readonly isRefused: boolean
  readonly isChecking: boolean
  readonly isStarting: boolean
  /** The last answer of 'Check'; undefined once a start has been tried. */
  readonly answer: Check | undefined
  /** The same, or why there is none: a new object with every 'Check'. */
  readonly checked: object | undefined
  readonly error: Error | null
  /** Why the last press of 'Adhesive is on' is not in the record. */
  readonly startError: Error | null
  /** Since when the adhesive is said to be on while the record does not hold it. */
  readonly unsentAt: string | undefined
  /** It is kept on the device until there is an answer, and goes by itself. */
  readonly isKept: boolean
  /** When it was first said to be on, and refused. */
  readonly refusedAt: string | undefined
  /** Every reason against it, from whichever was asked last. */
  readonly reasons: readonly Check['reasons'][number][]
  /** What is doubtful of the temperatures that the form holds, from whichever was asked last. */
  readonly questions: readonly Check['questions'][number][]
  /** That less goes on than the joint needs, where nobody has said why. */
  readonly amountQuestion: Check['questions'][number] | undefined
}

/** The press as it is kept over a reload; forgotten once the bond is started. */
interface KeptPress {
  readonly press: Press
  readonly setPress: (press: Press) => void
  readonly forget: () => void
}

/**
 * Checking and starting a bond, with the instant of the first press kept until the service has answered.
 *
 * @param now the form as it stands
 */
export function useStartBond(
  joint: Joint,
  job: RepairOrderDetail,
  cartridges: readonly { readonly id: string; readonly remainingMl: number }[],
  now: Draft,
  { press, setPress, forget }: KeptPress,
): Bonding {
  const navigate = useNavigate()
  const [asked, setAsked] = useState<Asked>()
  const checking = useAction(ROUTES.checkBond, { topics: [] })
  const params = { jointId: joint.id }
  const starting = useAct('startBond', {
    about: {
      shopId: job.shopId,
      repairOrderId: job.id,
      repairOrderNumber: job.number,
      vehicle: job.vehicle,
      jointId: joint.id,
      jointName: joint.name,
    },
    once: params,
    tellsOfLeft: true,
    topics: ['bonds', 'repairs', 'stock', 'bookings', 'alerts'],
    onDone: () => {
      forget()
      void navigate({ to: '/jobs/$repairOrderId', params: { repairOrderId: job.id } })
    },
  })
  const { error: startError, variables } = starting
  useEffect(() => {
    // Of a press before the page was loaded anew: what became of it is told here.
    if (startError !== null && variables === undefined && press.openAt !== undefined)
      setPress(pressAfter(press, press.openAt, startError))
    // oxlint-disable-next-line react/exhaustive-deps -- once for each answer
  }, [startError])
  const isKept = starting.waiting !== undefined
  const start = (draft: Draft, happened?: string) => {
    const at = instantOf(press, happened !== undefined, happenedNow)
    const body = applicationOf(draft, cartridges, at, happened)
    if (body === undefined) return
    setPress({ ...press, openAt: at })
    setAsked({ draft, at: deviceNow() })
    checking.reset()
    starting.mutate({ params, body }, { onError: (error) => setPress(pressAfter(press, at, error)) })
  }
  const isStill = (part: Parameters<typeof isSame>[0]) =>
    asked !== undefined && isSame(part, asked.draft, now)
  return {
    check: (draft) => {
      const body = applicationOf(draft, cartridges, undefined)
      if (body === undefined) return
      if (!isKept) starting.reset()
      setAsked({ draft, at: deviceNow() })
      checking.mutate({ params, body })
    },
    isCurrent: asked !== undefined && isStill('whole') && elapsedMs(asked.at) < FRESH_MS,
    isChanged: asked !== undefined && !isStill('whole'),
    start,
    record: start,
    isRefused: isProblem(starting.error, 'bond-refused'),
    isChecking: checking.isPending,
    isStarting: starting.isPending && !isKept,
    answer: checking.data,
    checked: checking.data ?? checking.error ?? undefined,
    error: starting.error ?? checking.error,
    startError: starting.error,
    unsentAt: starting.isIdle || starting.isError || isKept ? press.openAt : undefined,
    isKept,
    refusedAt: press.refusedAt,
    reasons: reasonsOf(starting.error) ?? checking.data?.reasons ?? [],
    questions: isStill('readings') ? readingQuestionsOf(starting.error, checking.data) : [],
    amountQuestion: isStill('amount') ? shortQuestionOf(starting.error, checking.data) : undefined,
  }
}

function readingQuestionsOf(error: Error | null, checked: Check | undefined): Bonding['questions'] {
  if (error !== null) return questionsOf(error)
  return (checked?.questions ?? []).filter((question) => !isAboutAmount(question))
}

function shortQuestionOf(error: Error | null, checked: Check | undefined): Bonding['amountQuestion'] {
  return error === null ? checked?.questions.find(isAboutAmount) : amountQuestionOf(error)
}

function reasonsOf(error: Error | null): Bonding['reasons'] | undefined {
  if (!(error instanceof ProblemError)) return undefined
  return isQuestion(error) ? [] : error.reasons
}
