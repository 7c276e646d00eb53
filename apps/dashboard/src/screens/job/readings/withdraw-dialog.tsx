import { formatTemperature } from '../../../lib/measures.ts'
import { ROUTES } from '../../../api/contracts.ts'
import type { Bond } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly reading: Bond['measurements'][number]
  readonly unit: 'C' | 'F'
  readonly onClose: () => void
}

/** Takes a panel reading back: it counts no more, and stays on record. */
export function WithdrawDialog({ reading, unit, onClose }: Props) {
  const withdraw = useAction(ROUTES.withdrawPanelReading, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      title={t('job.withdrawTheReadingOf', { temperatureC: formatTemperature(reading.temperatureC, unit) })}
      opened
      onClose={onClose}
      reasonLabel={t('job.whyItDoesNotCount')}
      confirmLabel={t('job.withdraw')}
      isDanger
      isPending={withdraw.isPending}
      error={withdraw.error}
      onConfirm={(reason) => withdraw.mutate({ params: { readingId: reading.id }, body: { reason } })}
    >
      <p>{t('job.allTimesAreWorkedOutAgainWithoutItIt')}</p>
    </ReasonDialog>
  )
}
