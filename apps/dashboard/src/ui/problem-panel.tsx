import { Button, Group } from '@mantine/core'
import { OctagonAlert } from 'lucide-react'
import { ProblemError } from '../api/problem.ts'
import { ReasonList } from './answers/reason-list.tsx'
import styles from './answers/reasons.module.css'
import { t } from '../lib/reader.ts'

interface Props {
  readonly error: Error | null
  readonly onRetry?: () => void
  /** Reasons to show; those of the error when left out. A form shows the others beside its fields. */
  readonly reasons?: ProblemError['reasons']
}

/** Why something was refused: the sentence, each reason, and its fix. Nothing when there is no error. */
export function ProblemPanel({ error, onRetry, reasons }: Props) {
  if (error === null) return null
  const shown = reasons ?? (error instanceof ProblemError ? error.reasons : [])
  return (
    <div className={styles['panel']} role="alert">
      <p className={styles['title']}>
        <OctagonAlert size={18} aria-hidden />
        {headline(error)}
      </p>
      <ReasonList reasons={shown} />
      {onRetry !== undefined && (
        <Group mt="sm">
          <Button size="xs" variant="default" onClick={onRetry}>
            {t('ui.tryAgain')}
          </Button>
        </Group>
      )}
    </div>
  )
}

/** The service's sentence; for a form that it could not read, where to look: its sentence names fields by path. */
function headline(error: Error): string {
  const isForm = error instanceof ProblemError && error.code === 'invalid-request'
  return isForm ? t('ui.notDoneYetSomethingFilledInNeeds') : error.message
}
