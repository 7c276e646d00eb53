import type { ReactNode } from 'react'
import styles from './filter-bar.module.css'

/** Filters over a list, in one wrapping line. */
export function FilterBar({ children }: { readonly children: ReactNode }) {
  return (
    <search className={styles['bar']} aria-label="Filters">
      {children}
    </search>
  )
}
