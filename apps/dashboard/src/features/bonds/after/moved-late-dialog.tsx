import { t } from '../../../lib/reader.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'

interface Props {
  readonly isPending: boolean
  readonly error: Error | null
  readonly onConfirm: (reason: string) => void
  readonly onClose: () => void
}

/** The work time may be over: nothing is recorded of a press by mistake, and what happened is. */
export function MovedLateDialog({ isPending, error, onConfirm, onClose }: Props) {
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={t('start-bond.after.movedLate')}
      reasonLabel={t('start-bond.after.whatHappened')}
      confirmLabel={t('start-bond.after.recordThatItWasMoved')}
      isDanger
      isPending={isPending}
      error={error}
      onConfirm={onConfirm}
    >
      <p style={{ margin: 0 }}>{t('start-bond.after.movedLateRule')}</p>
    </ReasonDialog>
  )
}
