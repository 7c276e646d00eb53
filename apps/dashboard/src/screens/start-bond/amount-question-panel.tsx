import type { WireReason } from '@clampclock/contracts'
import { isEnoughMl } from '@clampclock/quantities'
import { Button, Group, Textarea } from '@mantine/core'
import { TriangleAlert } from 'lucide-react'
import { useState, type SubmitEvent } from 'react'
import { formatRecordedVolume, formatVolume } from '../../lib/measures.ts'
import styles from '../../ui/answers/reasons.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly question: WireReason
  /** As the form holds it now. */
  readonly amountMl: number | undefined
  readonly neededMl: number
  readonly isPending: boolean
  readonly onMend: () => void
  readonly onConfirm: (reason: string) => void
}

/** Less than the joint needs: mended by a press, or kept with a reason. */
export function AmountQuestion({ question, amountMl, neededMl, isPending, onMend, onConfirm }: Props) {
  const [reason, setReason] = useState('')
  // Mended already: the next press asks again.
  if (amountMl !== undefined && isEnoughMl(amountMl, neededMl)) return null
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    onConfirm(reason.trim())
  }
  return (
    <div className={styles['panel']} role="alert">
      <form onSubmit={submit}>
        <p className={styles['title']}>
          <TriangleAlert size={18} aria-hidden />
          {t('start-bond.checkTheAmount')}
        </p>
        <ul className={styles['list']}>
          <li>
            <p>{question.message}</p>
          </li>
        </ul>
        <p className={styles['fix']}>{t('start-bond.tooLittleAdhesiveLeavesGapsThat')}</p>
        <Textarea
          mt="xs"
          label={t('start-bond.whyIsLessEnough')}
          required
          autosize
          minLength={5}
          maxLength={2000}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        <Group mt="sm" gap="xs">
          <Button size="sm" onClick={onMend}>
            {t('start-bond.changeTo', { needed: formatVolume(neededMl, 'up') })}
          </Button>
          <Button type="submit" size="sm" variant="default" loading={isPending}>
            {amountMl === undefined
              ? t('start-bond.keepIt')
              : t('start-bond.keep', { amount: formatRecordedVolume(amountMl) })}
          </Button>
        </Group>
      </form>
    </div>
  )
}
