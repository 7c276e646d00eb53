import { Checkbox } from '@mantine/core'
import { useRef, useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { aboutBond } from '../../api/acts/about-bond.ts'
import { useAct } from '../../api/acts/use-act.ts'
import { happenedNow } from '../../api/client.ts'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

export function AbandonDialog({ bond, onClose }: Props) {
  const [wasLifted, setWasLifted] = useState(false)
  const pressedAt = useRef<string>(undefined)
  const abandon = useAct('abandonBond', {
    about: aboutBond(bond),
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
    onKept: onClose,
  })
  const close = () => {
    abandon.reset()
    onClose()
  }
  return (
    <ReasonDialog
      opened
      onClose={close}
      title={t('job.abandonAttemptAt', { attempt: bond.attempt, jointName: bond.jointName })}
      reasonLabel={t('job.whyIsThisAttemptOver')}
      confirmLabel={t('job.abandonThisAttempt')}
      isDanger
      isPending={abandon.isPending}
      error={abandon.error}
      onConfirm={(reason) => {
        pressedAt.current ??= happenedNow()
        abandon.mutate({
          params: { bondId: bond.id },
          body: { at: pressedAt.current, reason, wasLifted },
        })
      }}
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
