import type { ReactNode } from 'react'
import styles from './facts.module.css'

type Fact = readonly [label: string, value: ReactNode]

/** Labelled values. Those that are null or undefined are left out. */
export function Facts({ facts }: { readonly facts: readonly Fact[] }) {
  return (
    <dl className={styles['facts']}>
      {facts
        .filter(([, value]) => value !== null && value !== undefined)
        .map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  )
}
