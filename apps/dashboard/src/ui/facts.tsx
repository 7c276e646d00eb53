import type { ReactNode } from 'react'
import { Help } from './help/help.tsx'
import type { Term } from './help/terms.ts'
import styles from './facts.module.css'

type Fact = readonly [label: string, value: ReactNode, explained?: Term]

/** Labelled values. Those that are null or undefined are left out. */
export function Facts({ facts }: { readonly facts: readonly Fact[] }) {
  return (
    <dl className={styles['facts']}>
      {facts
        .filter(([, value]) => value !== null && value !== undefined)
        .map(([label, value, explained]) => (
          <div key={label}>
            <dt>
              {label}
              {explained !== undefined && <Help of={explained} name={label} />}
            </dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  )
}
