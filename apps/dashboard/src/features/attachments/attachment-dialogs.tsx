import { Modal } from '@mantine/core'
import { ROUTES } from '../../api/contracts.ts'
import type { Attachment } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Facts } from '../../ui/facts.tsx'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../lib/reader.ts'
import styles from './attachments.module.css'

interface PhotoProps {
  readonly attachment: Attachment
  /** Of its picture. */
  readonly url: string
  readonly name: string
  readonly zone: string
  readonly onClose: () => void
}

/** One photo, as large as there is room, and what is known of it. */
export function PhotoDialog({ attachment, url, name, zone, onClose }: PhotoProps) {
  const { photo, at, by } = attachment
  if (photo === null) return null
  const { width, height, bytes, sha256, takenAt } = photo
  return (
    <Modal opened onClose={onClose} title={name} size="60rem">
      <img className={styles['large']} src={url} alt={name} width={width} height={height} />
      <Facts
        facts={[
          [t('attachments.taken'), takenAt === null ? null : formatInstant(takenAt, zone, 'full')],
          [t('attachments.added'), t('attachments.byAt', { by, at: formatInstant(at, zone, 'full') })],
          [
            t('attachments.size'),
            t('attachments.pixels', { width, height, kilobytes: Math.ceil(bytes / 1000) }),
          ],
          ['SHA-256', <code key="hash">{sha256}</code>],
        ]}
      />
    </Modal>
  )
}

interface WithdrawalProps {
  readonly attachment: Attachment
  readonly onClose: () => void
}

/** It counts no longer, and stays. */
export function WithdrawalDialog({ attachment, onClose }: WithdrawalProps) {
  const withdraw = useAction(ROUTES.withdrawAttachment, { topics: ['attachments'], onDone: onClose })
  return (
    <ReasonDialog
      title={
        attachment.kind === 'photo' ? t('attachments.withdrawThePhoto') : t('attachments.withdrawTheNote')
      }
      opened
      onClose={onClose}
      reasonLabel={t('attachments.whyWithdraw')}
      confirmLabel={t('attachments.withdraw')}
      isDanger
      isPending={withdraw.isPending}
      error={withdraw.error}
      onConfirm={(reason) => withdraw.mutate({ params: { attachmentId: attachment.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>{t('attachments.itStays')}</p>
    </ReasonDialog>
  )
}
