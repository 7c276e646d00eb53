import { Button } from '@mantine/core'
import { isProblem } from '../../api/problem.ts'
import { formatInstant } from '../../lib/instants.ts'
import { isQuestion } from './press.ts'
import styles from './start-bond.module.css'
import type { Bonding } from './use-start-bond.ts'

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
          See why
        </Button>
      )}
    </div>
  )
}

function noteOf(
  { startError, unsentAt, isStarting, isChecking, isChanged }: Bonding,
  missingCount: number,
  zone: string,
): string | undefined {
  if (isStarting || isChecking) return undefined
  const since =
    unsentAt === undefined ? undefined : `Adhesive on at ${formatInstant(unsentAt, zone, 'clock')}`
  if (missingCount > 0) {
    const gap = missingCount === 1 ? '1 thing is missing' : `${missingCount} things are missing`
    return since === undefined ? `Not sent: ${gap}.` : `${since} is not sent yet: ${gap}.`
  }
  if (since !== undefined) {
    const isAsked = startError !== null && isQuestion(startError) && !isChanged
    return isAsked
      ? `${since} is not recorded yet: a question is open.`
      : `${since} is not sent yet: press again to send it.`
  }
  if (startError === null) return undefined
  const what = isProblem(startError, 'bond-refused')
    ? `Refused, not recorded: ${countOf(startError.reasons.length)}.`
    : `Refused: ${startError.message}`
  return isChanged ? 'Not recorded. You have changed the form since: press again.' : what
}

function countOf(reasons: number): string {
  return reasons === 1 ? '1 reason' : `${reasons} reasons`
}
