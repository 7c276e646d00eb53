import { Ellipsis } from 'lucide-react'
import type { ComponentPropsWithRef } from 'react'
import styles from './shell.module.css'
import { t } from '../../lib/reader.ts'

/** What the phone's further places hang on. */
export function MoreButton(props: ComponentPropsWithRef<'button'>) {
  return (
    <button type="button" aria-haspopup="menu" {...props} className={styles['tab']}>
      <Ellipsis size={22} aria-hidden />
      {t('app.more')}
    </button>
  )
}
