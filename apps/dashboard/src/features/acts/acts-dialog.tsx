import { Button, Group, Modal } from '@mantine/core'
import type { Act } from '../../api/acts/act.ts'
import { theBox } from '../../api/acts/the-box.ts'
import { t } from '../../lib/reader.ts'
import { ActRow } from './act-row.tsx'
import styles from './acts.module.css'
import { useOpenActs } from './open-acts.ts'

/** Everything that was pressed on this device and is not in the record: what waits, what needs somebody, what was today. */
export function ActsDialog({ onClose }: { readonly onClose: () => void }) {
  const { waiting, tasks, over, others } = useOpenActs()
  const nothing = waiting.length + tasks.length + others === 0
  return (
    <Modal opened onClose={onClose} title={t('acts.pressedOnThisDevice')}>
      {nothing && <p>{t('acts.allIsWithTheService')}</p>}
      <Part title={t('acts.notRecorded')} acts={tasks} onLeave={onClose} />
      <Part title={t('acts.waitingToBeSent')} acts={waiting} onLeave={onClose} />
      {others > 0 && <p>{t('acts.others', { count: others })}</p>}
      <Part title={t('acts.lastDay')} acts={over} onLeave={onClose} />
      <Group justify="flex-end" mt="md">
        {waiting.length > 0 && (
          <Button variant="default" mih={48} onClick={() => void theBox().then(({ nudge }) => nudge())}>
            {t('acts.sendNow')}
          </Button>
        )}
        <Button mih={48} onClick={onClose}>
          {t('app.close')}
        </Button>
      </Group>
    </Modal>
  )
}

interface PartProps {
  readonly title: string
  readonly acts: readonly Act[]
  readonly onLeave: () => void
}

function Part({ title, acts, onLeave }: PartProps) {
  if (acts.length === 0) return null
  return (
    <section className={styles['part']} aria-label={title}>
      <h3>{title}</h3>
      <ul className={styles['list']}>
        {acts.map((act) => (
          <ActRow key={act.id} act={act} isFar onLeave={onLeave} />
        ))}
      </ul>
    </section>
  )
}
