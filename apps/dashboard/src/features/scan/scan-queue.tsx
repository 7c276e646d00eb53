import { Button } from '@mantine/core'
import type { Outgoing } from '../../api/outbox.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './scan-queue.module.css'
import { t } from '../../lib/reader.ts'

export interface Scanned {
  readonly text: string
}

interface Props {
  readonly items: readonly Outgoing<Scanned>[]
  readonly sent: number
  readonly onDismiss: (id: string) => void
}

/** What was scanned and is not in yet, and what was refused: nothing is lost without a word. */
export function ScanQueue({ items, sent, onDismiss }: Props) {
  const refused = items.filter(({ state }) => state === 'refused').length
  const waiting = items.length - refused
  if (items.length === 0 && sent === 0) return null
  return (
    <div className={styles['queue']}>
      <output className={styles['sum']}>{sentenceOf(sent, waiting, refused)}</output>
      {items.length > 0 && (
        <ul aria-label={t('features.scansThatAreNotInYet')}>
          {items.map((item) => (
            <li key={item.id}>
              <code>{readable(item.payload.text)}</code>
              <StateMark item={item} />
              {item.state === 'refused' && (
                <Button
                  size="sm"
                  variant="default"
                  aria-label={t('features.dismiss2', { text: readable(item.payload.text) })}
                  onClick={() => onDismiss(item.id)}
                >
                  {t('features.dismiss')}
                </Button>
              )}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

function StateMark({ item: { state, reason, tries } }: { readonly item: Outgoing<Scanned> }) {
  if (state === 'refused') return <Mark tone="danger">{reason}</Mark>
  if (tries > 0) return <Mark tone="warning">{t('features.noAnswerYetBeingSentAgain')}</Mark>
  return <Mark tone="curing">{state === 'sending' ? t('features.beingSent') : t('features.waiting')}</Mark>
}

function sentenceOf(sent: number, waiting: number, refused: number): string {
  return [
    t('features.scansSent', { sent }),
    ...(waiting > 0 ? [t('features.waiting2', { waiting })] : []),
    ...(refused > 0 ? [t('features.refused', { refused })] : []),
  ].join(', ')
}

/** A scanner's separators are no letters. */
function readable(text: string): string {
  // oxlint-disable-next-line no-control-regex -- control characters are what is replaced
  return text.replaceAll(/[\u0000-\u001f]/g, ' ')
}

/** Why what the scans lead to cannot be ended yet; undefined once every scan is in, or was seen to be refused. */
export function notAllIn(items: readonly Outgoing<unknown>[]): string | undefined {
  const refused = items.filter(({ state }) => state === 'refused').length
  const waiting = items.length - refused
  if (waiting > 0) return t('features.notInYet', { waiting })
  if (refused > 0) return t('features.lookAtWhatWasRefusedAndDismissIt')
  return undefined
}
