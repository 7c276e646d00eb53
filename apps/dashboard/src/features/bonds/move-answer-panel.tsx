import type { WireReason } from '@clampclock/contracts'
import type { MoveCheck } from '../../api/types.ts'
import type { ReactNode } from 'react'
import type { ServerNow } from '../../api/server-clock.ts'
import { formatInstant, formatNear, toWholeMinute } from '../../lib/instants.ts'
import { NEVER } from '../../lib/words.ts'
import { Answer } from '../../ui/answers/answer.tsx'
import { Countdown } from '../../ui/answers/countdown.tsx'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import type { MoveAnswer } from './move-answer.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly question: string
  readonly answer: MoveAnswer
  readonly reasons: readonly WireReason[]
  /** When it could be if the metal were measured now. */
  readonly measureAgain?: MoveCheck['measureAgain']
  readonly now: ServerNow
  readonly asOf: string
  readonly zone: string
  /** What a yes rests on, and whether it is one without a but. */
  readonly yes: { readonly because: string; readonly isPlain: boolean }
  readonly children?: ReactNode
}

/** The plain answer with when and why. */
export function MoveAnswerPanel({
  question,
  answer,
  reasons,
  measureAgain,
  now,
  asOf,
  zone,
  yes,
  children,
}: Props) {
  if (answer.kind === 'yes') {
    return (
      <Answer
        tone={yes.isPlain ? 'ready' : 'warning'}
        question={question}
        word={yes.isPlain ? t('features.yesItMayBeMoved') : t('features.nothingHoldsItButLookFirst')}
      >
        <p>{yes.because}</p>
        <p>{t('features.asOf', { asOf: formatInstant(asOf, zone, 'clock') })}</p>
        {children}
      </Answer>
    )
  }
  if (answer.kind === 'notYet') {
    const at = new Date(toWholeMinute(answer.atMs)).toISOString()
    return (
      <Answer
        tone="curing"
        question={question}
        word={t('features.noNotBefore', { at: formatNear(at, zone, now.expectedMs) })}
      >
        <Countdown remainingMs={answer.atMs - now.earliestMs} towards="ready" tone="curing" size="large" />
        <Worth measureAgain={measureAgain} nowMs={now.expectedMs} zone={zone} insteadMs={answer.atMs} />
        <ReasonList reasons={reasons} />
        {children}
      </Answer>
    )
  }
  return (
    <Answer tone={answer.kind === 'asking' ? 'curing' : 'warning'} question={question} word={wordOf(answer)}>
      {answer.kind === 'asking' && (
        <p>{t('features.theLastAnswerIsOfLeaveItWhereItIs', { asOf: formatInstant(asOf, zone, 'clock') })}</p>
      )}
      {answer.kind === 'no' && answer.reason !== null && <p>{NEVER[answer.reason]}.</p>}
      {answer.kind === 'no' && answer.reason !== null && (
        <Worth measureAgain={measureAgain} nowMs={now.expectedMs} zone={zone} insteadMs={null} />
      )}
      <ReasonList reasons={reasons} />
      {children}
    </Answer>
  )
}

interface WorthProps {
  readonly measureAgain: Props['measureAgain']
  readonly nowMs: number
  readonly zone: string
  /** When it may be moved otherwise; null where no time can be given. */
  readonly insteadMs: number | null
}

/** What one more reading of the metal would be worth. */
function Worth({ measureAgain, nowMs, zone, insteadMs }: WorthProps) {
  if (measureAgain?.readyAt.kind !== 'at') return null
  const { at } = measureAgain.readyAt
  if (insteadMs !== null && Date.parse(at) >= insteadMs) return null
  const near = (atMs: number) => formatNear(new Date(toWholeMinute(atMs)).toISOString(), zone, nowMs)
  return (
    <p>
      {insteadMs === null
        ? t('features.measureTheMetalAgainMayOpen', { at: near(Date.parse(at)) })
        : t('features.measureTheMetalAgainMayOpenInsteadOf', {
            at: near(Date.parse(at)),
            instead: near(insteadMs),
          })}
    </p>
  )
}

function wordOf(answer: MoveAnswer): string {
  if (answer.kind === 'asking') return t('features.askingTheService')
  if (answer.kind === 'held') return t('features.noAJointMustBeInspectedOrMadeAgain')
  if (answer.kind === 'lacking') return t('features.noCuredButSomethingIsMissing')
  return answer.kind === 'no' && answer.reason !== null
    ? t('features.noAndNoTimeCanBeGiven')
    : t('features.no')
}
