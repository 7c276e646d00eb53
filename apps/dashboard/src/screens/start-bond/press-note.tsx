import { Button } from '@mantine/core'
import { isProblem } from '../../api/problem.ts'
import { formatInstant } from '../../lib/instants.ts'
import { isQuestion } from './press.ts'
import styles from './start-bond.module.css'
import type { Bonding } from './use-start-bond.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bonding: Bonding
  /** How much is still to be filled in, once something was pressed. */
  readonly missingCount: number
  readonly zone: string
  readonly onSeeWhy: () => void
}

/** What came of the press, at the button itself: the whole answer may be a screen further down. */
export function PressNote({ bonding, missingCount, zone, onSeeWhy }: Props) {
  const text = noteOf(bonding, missingCount, zone)
  if (text === undefined) return null
  return (
    <div className={styles['note']} role="alert">
      <span>{text}</span>
      {(bonding.error !== null || missingCount > 0) && (
        <Button variant="default" size="compact-sm" onClick={onSeeWhy}>
          {t('start-bond.seeWhy')}
        </Button>
      )}
    </div>
  )
}

function noteOf(
  { startError, unsentAt, isKept, isStarting, isChecking, isChanged }: Bonding,
  missingCount: number,
  zone: string,
): string | undefined {
  if (isStarting || isChecking) return undefined
  const since =
    unsentAt === undefined
      ? undefined
      : t('start-bond.adhesiveOnAt', { unsentAt: formatInstant(unsentAt, zone, 'clock') })
  if (since !== undefined && isKept) return t('start-bond.isKept', { since })
  if (missingCount > 0) {
    const gap = t('start-bond.thingsAreMissing', { missingCount })
    return since === undefined
      ? t('start-bond.notSent', { gap })
      : t('start-bond.isNotSentYet', { since, gap })
  }
  if (since !== undefined) {
    const isAsked = startError !== null && isQuestion(startError) && !isChanged
    return isAsked
      ? t('start-bond.isNotRecordedYetAQuestionIsOpen', { since })
      : t('start-bond.isNotSentYetPressAgainToSendIt', { since })
  }
  if (startError === null) return undefined
  const what = isProblem(startError, 'bond-refused')
    ? t('start-bond.refusedNotRecorded', { reasons: startError.reasons.length })
    : t('start-bond.refused', { message: startError.message })
  return isChanged ? t('start-bond.notRecordedYouHaveChangedTheForm') : what
}
