import { useState } from 'react'
import { t } from '../../lib/reader.ts'
import { ActsDialog } from './acts-dialog.tsx'
import styles from './acts.module.css'
import { useOpenActs } from './open-acts.ts'

/** In the header: how much of what was pressed on this device is not with the service. */
export function ActsMark() {
  const [isOpen, setOpen] = useState(false)
  const { waiting, tasks, others } = useOpenActs()
  const parts = [
    ...(tasks.length > 0 ? [t('acts.refusedCount', { count: tasks.length })] : []),
    ...(waiting.length > 0 ? [t('acts.waitingCount', { count: waiting.length })] : []),
    ...(others > 0 ? [t('acts.othersCount', { count: others })] : []),
  ]
  return (
    <>
      {parts.length > 0 && (
        <button
          type="button"
          className={styles['mark']}
          data-refused={tasks.length > 0}
          aria-haspopup="dialog"
          onClick={() => setOpen(true)}
        >
          {parts.join(', ')}
        </button>
      )}
      {isOpen && <ActsDialog onClose={() => setOpen(false)} />}
    </>
  )
}
