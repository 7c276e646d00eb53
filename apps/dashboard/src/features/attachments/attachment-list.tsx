import { Button } from '@mantine/core'
import { useState } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import type { Attachment } from '../../api/types.ts'
import { urlOf } from '../../api/url.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useFocusBack } from '../../lib/use-focus-back.ts'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'
import styles from './attachments.module.css'
import { labelOf, type Subject } from './subject.ts'

const PhotoDialog = lazily(async () => (await import('./attachment-dialogs.tsx')).PhotoDialog)
const WithdrawalDialog = lazily(async () => (await import('./attachment-dialogs.tsx')).WithdrawalDialog)

interface Props {
  readonly attachments: readonly Attachment[]
  readonly subjects: readonly Subject[]
  readonly zone: string
  readonly mayWithdraw: boolean
}

const contentUrl = ({ id }: Attachment) =>
  urlOf(ROUTES.getAttachmentContent.path, { attachmentId: id }, undefined)

/** What a photo says where it has no caption: of what it is, and who added it. */
function nameOf(attachment: Attachment, of: string): string {
  return attachment.text === '' ? t('attachments.photoOf', { of, by: attachment.by }) : attachment.text
}

/** The oldest first; what was withdrawn stays, struck through, with the reason. */
export function AttachmentList({ attachments, subjects, zone, mayWithdraw }: Props) {
  const [opened, setOpened] = useState<Attachment>()
  const [withdrawing, setWithdrawing] = useState<Attachment>()
  const focus = useFocusBack()
  const close = () => {
    setOpened(undefined)
    setWithdrawing(undefined)
    focus.giveBack()
  }
  return (
    <>
      <ul className={styles['list']}>
        {attachments.map((attachment) => {
          const { id, kind, text, at, by, withdrawal } = attachment
          const of = labelOf(attachment, subjects) ?? ''
          const name = nameOf(attachment, of)
          return (
            <li key={id} className={styles[kind]}>
              {kind === 'photo' && (
                <button
                  type="button"
                  className={styles['thumbnail']}
                  aria-label={t('attachments.showLarge', { name })}
                  onClick={() => {
                    focus.hold()
                    setOpened(attachment)
                  }}
                >
                  <img src={contentUrl(attachment)} alt={name} loading="lazy" decoding="async" />
                </button>
              )}
              <div className={styles['words']}>
                {text !== '' && <p>{withdrawal === null ? text : <s>{text}</s>}</p>}
                <p className={styles['soft']}>
                  {t('attachments.ofByAt', { of, by, at: formatInstant(at, zone, 'full') })}
                </p>
                {withdrawal !== null && (
                  <p>
                    {t('attachments.withdrawnBecause', {
                      by: withdrawal.by,
                      at: formatInstant(withdrawal.at, zone, 'full'),
                      reason: withdrawal.reason,
                    })}
                  </p>
                )}
                {withdrawal === null && mayWithdraw && (
                  <Button
                    variant="default"
                    aria-label={t('attachments.withdrawIt', { name: kind === 'photo' ? name : text })}
                    onClick={() => {
                      focus.hold()
                      setWithdrawing(attachment)
                    }}
                  >
                    {t('attachments.withdraw')}
                  </Button>
                )}
              </div>
            </li>
          )
        })}
      </ul>
      {opened !== undefined && (
        <PhotoDialog
          attachment={opened}
          url={contentUrl(opened)}
          name={nameOf(opened, labelOf(opened, subjects) ?? '')}
          zone={zone}
          onClose={close}
        />
      )}
      {withdrawing !== undefined && <WithdrawalDialog attachment={withdrawing} onClose={close} />}
    </>
  )
}
