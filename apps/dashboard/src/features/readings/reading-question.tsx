import type { ProblemReason } from '@clampclock/contracts'
import { formatTemperature } from '@clampclock/quantities'
import { Button, Group } from '@mantine/core'
import { TriangleAlert } from 'lucide-react'
import styles from '../../ui/answers/reasons.module.css'
import { shownIn } from './questions.ts'

interface Props {
  readonly questions: readonly ProblemReason[]
  readonly unit: 'C' | 'F'
  /** What was meant if only the unit slipped, degC. */
  readonly meantC?: number | undefined
  readonly isPending: boolean
  readonly onMeant?: (valueC: number) => void
  readonly onConfirm: () => void
}

/** A temperature that cannot quite be: mended by a press where the unit slipped, or stood by. */
export function ReadingQuestion({ questions, unit, meantC, isPending, onMeant, onConfirm }: Props) {
  if (questions.length === 0) return null
  return (
    <div className={styles['panel']} role="alert">
      <p className={styles['title']}>
        <TriangleAlert size={18} aria-hidden />
        Check this reading
      </p>
      <ul className={styles['list']}>
        {shownIn(questions, unit).map(({ code, message }) => (
          <li key={`${code} ${message}`}>
            <p>{message}</p>
          </li>
        ))}
      </ul>
      <p className={styles['fix']}>
        If it is right, it is kept as doubtful: it may make the joint ready later, never sooner, until
        somebody else or another instrument reads the same.
      </p>
      <Group mt="sm" gap="xs">
        {meantC !== undefined && onMeant !== undefined && (
          <Button size="sm" onClick={() => onMeant(meantC)}>
            Change to {formatTemperature(meantC, unit)}
          </Button>
        )}
        <Button size="sm" variant="default" loading={isPending} onClick={onConfirm}>
          It is right
        </Button>
      </Group>
    </div>
  )
}
