import { t } from '../../lib/reader.ts'
import { ActRow } from './act-row.tsx'
import styles from './acts.module.css'
import { useOpenActs } from './open-acts.ts'

/** Beside the joint: what was pressed here and is not in its record, or came there late. */
export function JointActs({ jointId, jointName }: { readonly jointId: string; readonly jointName: string }) {
  const { waiting, tasks, over } = useOpenActs(jointId)
  const shown = [...tasks, ...waiting, ...over.filter(({ state }) => state === 'sent')]
  if (shown.length === 0) return null
  return (
    <ul className={styles['list']} aria-label={t('acts.pressedOn', { joint: jointName })}>
      {shown.map((act) => (
        <ActRow key={act.id} act={act} />
      ))}
    </ul>
  )
}
