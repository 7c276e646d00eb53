import type { WireReason } from '@clampclock/contracts'
import { Button, Group } from '@mantine/core'
import { TriangleAlert } from 'lucide-react'
import styles from '../../../ui/answers/reasons.module.css'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly questions: readonly WireReason[]
  readonly isPending: boolean
  readonly onConfirm: () => void
}

/** Figures that can hardly be: mended in the fields above, or stood by. */
export function SheetQuestion({ questions, isPending, onConfirm }: Props) {
  if (questions.length === 0) return null
  return (
    <div className={styles['panel']} role="alert">
      <p className={styles['title']}>
        <TriangleAlert size={18} aria-hidden />
        {t('products.compareWithThePrintedSheet')}
      </p>
      <ul className={styles['list']}>
        {questions.map(({ code, field, message }) => (
          <li key={`${code} ${field} ${message}`}>
            <p>{message}</p>
          </li>
        ))}
      </ul>
      <Group mt="sm" gap="xs">
        <Button size="sm" variant="default" loading={isPending} onClick={onConfirm}>
          {t('products.theSheetSaysSo')}
        </Button>
      </Group>
    </div>
  )
}
