import type { ReactNode } from 'react'
import styles from './filter-bar.module.css'
import { t } from '../../lib/reader.ts'

/** Filters over a list, in one wrapping line. */
export function FilterBar({ children }: { readonly children: ReactNode }) {
  return (
    <search className={styles['bar']} aria-label={t('ui.filters')}>
      {children}
    </search>
  )
}
