import type { WireReason } from '@clampclock/contracts'
import { Button, Group } from '@mantine/core'
import { TriangleAlert } from 'lucide-react'
import { formatTemperature } from '../../lib/measures.ts'
import styles from '../../ui/answers/reasons.module.css'
import { shownIn } from './questions.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly questions: readonly WireReason[]
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
        {t('features.checkThisReading')}
      </p>
      <ul className={styles['list']}>
        {shownIn(questions, unit).map(({ code, message }) => (
          <li key={`${code} ${message}`}>
            <p>{message}</p>
          </li>
        ))}
      </ul>
      <p className={styles['fix']}>{t('features.ifItIsRightItIsKeptAsDoubtfulItMay')}</p>
      <Group mt="sm" gap="xs">
        {meantC !== undefined && onMeant !== undefined && (
          <Button size="sm" onClick={() => onMeant(meantC)}>
            {t('features.changeTo', { meantC: formatTemperature(meantC, unit) })}
          </Button>
        )}
        <Button size="sm" variant="default" loading={isPending} onClick={onConfirm}>
          {t('features.itIsRight')}
        </Button>
      </Group>
    </div>
  )
}
