import { CloseButton, Group } from '@mantine/core'
import { formatInstant } from '../../lib/instants.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './picture/gantt.module.css'
import type { Verdict } from './use-move.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly verdict: Verdict | undefined
  readonly zone: string
  readonly onClose: () => void
}

/** What the server says to a move, while it is under way and after. The line keeps its room, so that nothing jumps. */
export function MoveVerdict({ verdict, zone, onClose }: Props) {
  return (
    <div className={styles['verdict']}>
      <Group gap="xs" wrap="nowrap">
        <output aria-live="polite">{verdict !== undefined && sentence(verdict, zone)}</output>
        {verdict?.kind === 'refused' && <CloseButton aria-label={t('plan.dismiss')} onClick={onClose} />}
      </Group>
    </div>
  )
}

function sentence(verdict: Verdict, zone: string) {
  const at = formatInstant(verdict.wish.startsAt, zone)
  switch (verdict.kind) {
    case 'asking':
      return <Mark tone="quiet">{t('plan.startAsking', { at })}</Mark>
    case 'refused':
      return (
        <Mark tone="danger">
          {t('plan.notAt', { at, value: verdict.reasons.map(({ message }) => message).join('. ') })}
        </Mark>
      )
    case 'allowed':
      return <Mark tone="ready">{t('plan.start', { at, others: others(verdict.others) })}</Mark>
    case 'moved':
      return <Mark tone="ready">{t('plan.movedTo', { at, others: others(verdict.others) })}</Mark>
  }
}

function others(count: number): string {
  return count === 0 ? t('plan.nothingElseMoves') : t('plan.moreGiveWay', { count })
}
