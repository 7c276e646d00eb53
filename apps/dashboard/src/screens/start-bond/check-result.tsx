import { wholeMl } from '@clampclock/quantities'
import { formatMinutes, formatTemperature, formatVolume } from '../../lib/measures.ts'
import { GateList } from '../../features/bonds/gates/gate-list.tsx'
import type { Written } from '../../features/bonds/gates/refusal.ts'
import { confirmedOf, meantC } from '../../features/readings/questions.ts'
import { ReadingQuestion } from '../../features/readings/reading-question.tsx'
import { Answer } from '../../ui/answers/answer.tsx'
import { Facts } from '../../ui/facts.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './start-bond.module.css'
import { useServerNow } from '../../lib/use-now.ts'
import { AmountQuestion } from './amount-question-panel.tsx'
import type { Draft } from './application.ts'
import { isQuestion } from './press.ts'
import type { Bonding } from './use-start-bond.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bonding: Bonding
  readonly unit: 'C' | 'F'
  readonly shopId: string
  readonly overrides: Written
  readonly onOverride: (code: string, reason: string) => void
  readonly draft: Draft
  /** What the joint needs. */
  readonly neededMl: number
  readonly isConfirming: boolean
  readonly onMend: (change: Partial<Draft>) => void
  readonly onConfirm: (change: Partial<Draft>) => void
}

/** Every gate's answer by name: what is refused, what would put it right, and whether somebody may go on all the same. */
export function CheckResult({
  bonding,
  unit,
  shopId,
  overrides,
  onOverride,
  draft,
  neededMl,
  isConfirming,
  onMend,
  onConfirm,
}: Props) {
  const { answer, error, reasons, questions, amountQuestion } = bonding
  // Looked at once a second: a yes grows old by itself.
  useServerNow()
  const asked = (
    <>
      <ReadingQuestion
        questions={questions}
        unit={unit}
        {...mendOf(questions, draft, unit, onMend)}
        isPending={isConfirming}
        onConfirm={() =>
          onConfirm({ confirmed: [...new Set([...draft.confirmed, ...confirmedOf(questions)])] })
        }
      />
      {amountQuestion !== undefined && (
        <AmountQuestion
          question={amountQuestion}
          amountMl={draft.amountMl}
          neededMl={neededMl}
          isPending={isConfirming}
          onMend={() => onMend({ amountMl: wholeMl(neededMl) })}
          onConfirm={(shortBecause) => onConfirm({ shortBecause })}
        />
      )}
    </>
  )
  if (answer === undefined && reasons.length === 0) {
    if (questions.length > 0 || amountQuestion !== undefined) return asked
    if (error === null) return null
    // Asked about a value that is another by now.
    if (isQuestion(error) && bonding.isChanged)
      return <p className={styles['old']}>{t('start-bond.checkAgain')}.</p>
    return <ProblemPanel error={error} />
  }
  const isYes = answer?.mayStart === true && questions.length === 0 && amountQuestion === undefined
  const isCurrent = bonding.isCurrent && !bonding.isChecking
  const mayStart = isYes && isCurrent
  return (
    <div className={styles['result']} aria-live="polite">
      {asked}
      <Answer
        tone={mayStart ? 'ready' : isYes || bonding.isChanged ? 'curing' : 'danger'}
        question={t('start-bond.mayIUseThisHereAndNow')}
        word={mayStart ? t('start-bond.yes') : wordOf(bonding, isYes)}
      >
        {answer !== undefined && isCurrent && (
          <Facts
            facts={[
              [
                t('start-bond.workTimeCareful'),
                answer.workTimeMinutes === null ? null : formatMinutes(answer.workTimeMinutes, 'down'),
                'workTime',
              ],
              [
                t('start-bond.handlingStrengthCarefulEstimate'),
                answer.handlingTimeMinutes === null ? null : formatMinutes(answer.handlingTimeMinutes, 'up'),
                'handlingStrength',
              ],
              ...ifProven(answer.ifProvenMinutes),
              [t('start-bond.dewPoint'), formatTemperature(answer.dewPointC, unit)],
              [t('start-bond.amountNeeded'), formatVolume(answer.amountNeededMl, 'up')],
            ]}
          />
        )}
        {reasons.length > 0 && bonding.isChanged && (
          <p className={styles['old']}>{t('start-bond.itWasNoBeforeYouChangedTheForm')}</p>
        )}
        {reasons.length > 0 && (
          <GateList reasons={reasons} shopId={shopId} written={overrides} onWrite={onOverride} />
        )}
      </Answer>
    </div>
  )
}

/** What the wait could be if the thermometer of the metal were borne out. */
function ifProven(minutes: number | null): [string, string][] {
  if (minutes === null) return []
  return [[t('start-bond.theSameWithTheAirReadByThe'), formatMinutes(minutes, 'up')]]
}

/** What is said in place of a yes. */
function wordOf(
  { answer, error, isChecking, isChanged, isRefused, questions }: Bonding,
  isOldYes: boolean,
): string {
  if (isOldYes || isChanged) return isChecking ? t('start-bond.askingTheService') : t('start-bond.checkAgain')
  // Each gate says below why.
  if (isRefused) return t('start-bond.no')
  if (error !== null) return error.message
  if (answer?.mayStart !== true) return t('start-bond.no')
  return questions.length > 0 ? t('start-bond.notYetCheckTheReading') : t('start-bond.notYetCheckTheAmount')
}

/** Where the unit of one of the two slipped, a press puts it right. */
function mendOf(questions: Bonding['questions'], draft: Draft, unit: 'C' | 'F', onMend: Props['onMend']) {
  const about = (field: string) => questions.filter((question) => question.field === field)
  const panelC = meantC(about('body.panel.temperatureC'), draft.panelC, unit)
  if (panelC !== undefined) return { meantC: panelC, onMeant: (c: number) => onMend({ panelC: c }) }
  const airC = meantC(about('body.airTemperatureC'), draft.airC, unit)
  return airC === undefined ? {} : { meantC: airC, onMeant: (c: number) => onMend({ airC: c }) }
}
