import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import { GateList } from '../../features/bonds/gates/gate-list.tsx'
import type { Written } from '../../features/bonds/gates/refusal.ts'
import { Answer } from '../../ui/answer.tsx'
import { Facts } from '../../ui/facts.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './start-bond.module.css'
import type { Bonding } from './use-start-bond.ts'

interface Props {
  readonly bonding: Bonding
  readonly unit: 'C' | 'F'
  readonly shopId: string
  readonly overrides: Written
  readonly onOverride: (code: string, reason: string) => void
}

/** Every gate's answer by name: what is refused, what would put it right, and whether somebody may go on all the same. */
export function CheckResult({ bonding, unit, shopId, overrides, onOverride }: Props) {
  const { answer, error, reasons } = bonding
  if (answer === undefined && reasons.length === 0) {
    return error === null ? null : <ProblemPanel error={error} />
  }
  const mayStart = answer?.mayStart === true
  return (
    <div className={styles['result']} aria-live="polite">
      <Answer
        tone={mayStart ? 'ready' : 'danger'}
        question="May I use this here and now?"
        word={mayStart ? 'Yes' : (error?.message ?? 'No')}
      >
        {answer !== undefined && (
          <Facts
            facts={[
              [
                'Work time at this metal',
                answer.workTimeMinutes === null ? null : formatMinutes(answer.workTimeMinutes, 'down'),
              ],
              [
                'Handling strength after about',
                answer.handlingTimeMinutes === null ? null : formatMinutes(answer.handlingTimeMinutes, 'up'),
              ],
              ['Dew point', formatTemperature(answer.dewPointC, unit)],
              ['Amount needed', `${Math.ceil(answer.amountNeededMl)} mL`],
            ]}
          />
        )}
        {reasons.length > 0 && (
          <GateList reasons={reasons} shopId={shopId} written={overrides} onWrite={onOverride} />
        )}
      </Answer>
    </div>
  )
}
