import { ROUTES } from '../../api/contracts.ts'
import { Checkbox } from '@mantine/core'
import { useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

export function AbandonDialog({ bond, onClose }: Props) {
  const [wasLifted, setWasLifted] = useState(false)
  const abandon = useAction(ROUTES.abandonBond, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={t('job.abandonAttemptAt', { attempt: bond.attempt, jointName: bond.jointName })}
      reasonLabel={t('job.whyIsThisAttemptOver')}
      confirmLabel={t('job.abandonThisAttempt')}
      isDanger
      isPending={abandon.isPending}
      error={abandon.error}
      onConfirm={(reason) => abandon.mutate({ params: { bondId: bond.id }, body: { reason, wasLifted } })}
    >
      <p style={{ margin: 0 }}>{t('job.scrapeBothSidesAndStartAgainTheClock')}</p>
      <Checkbox
        label={t('job.thePanelsWereLiftedApart')}
        checked={wasLifted}
        onChange={(event) => setWasLifted(event.currentTarget.checked)}
      />
    </ReasonDialog>
  )
}
