import { Button, Loader } from '@mantine/core'
import { OctagonAlert } from 'lucide-react'
import { t } from '../../lib/reader.ts'
import styles from './attachments.module.css'
import type { PhotoOutbox } from './use-photo-outbox.ts'

/** What was taken and is not with the service yet, and why. */
export function Unsent({ outbox }: { readonly outbox: PhotoOutbox }) {
  const { items, preparing, unreadable, dismiss } = outbox
  return (
    <>
      <output className={styles['soft']}>
        {preparing > 0 && t('attachments.preparing', { count: preparing })}
      </output>
      {unreadable.length > 0 && (
        <p role="alert" className={styles['fault']}>
          <OctagonAlert size={18} aria-hidden />
          {t('attachments.unreadable', { count: unreadable.length, names: unreadable.join(', ') })}
        </p>
      )}
      {items.length > 0 && (
        <ul className={styles['unsent']} aria-label={t('attachments.onTheirWay')}>
          {items.map(({ id, payload, state, tries, reason }) => (
            <li key={id}>
              <img
                src={`data:image/jpeg;base64,${payload.base64}`}
                alt={payload.caption === '' ? t('attachments.aPhoto') : payload.caption}
              />
              <div role={state === 'refused' ? 'alert' : 'status'}>
                {state === 'refused' ? (
                  <p className={styles['fault']}>
                    <OctagonAlert size={18} aria-hidden />
                    {t('attachments.refused', { reason: reason ?? '' })}
                  </p>
                ) : (
                  <p>
                    {tries === 0 && <Loader size="xs" aria-hidden />}{' '}
                    {tries === 0 ? t('attachments.sending') : t('attachments.noAnswerYet')}
                  </p>
                )}
                {state === 'refused' && (
                  <Button variant="default" onClick={() => dismiss(id)}>
                    {t('attachments.discard')}
                  </Button>
                )}
              </div>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
