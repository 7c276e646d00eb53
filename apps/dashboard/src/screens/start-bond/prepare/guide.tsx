import { Drawing, type DrawingName } from '../../../features/bonds/drawings/drawing.tsx'
import { t } from '../../../lib/reader.ts'
import styles from './prepare.module.css'

interface Props {
  readonly drawing: DrawingName
  readonly title: string
  readonly why: string
  readonly isOnFile?: boolean
}

/** What to do, why, and what it looks like; nothing to tick. */
export function Guide({ drawing, title, why, isOnFile = false }: Props) {
  return (
    <li className={styles['guide']}>
      <span>
        <strong>{title}</strong>
        <small>{why}</small>
        <small className={styles['source']}>{sourceOf(isOnFile)}</small>
      </span>
      <Drawing of={drawing} />
    </li>
  )
}

export function sourceOf(isOnFile: boolean): string {
  return isOnFile ? t('start-bond.byTheProductOnFile') : t('start-bond.commonPracticeNoSource')
}
