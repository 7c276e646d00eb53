import type { ReactNode } from 'react'
import styles from './start-bond.module.css'

interface Props {
  readonly title: string
  readonly hint?: ReactNode
  readonly fault?: string | undefined
  readonly children: ReactNode
}

/** One step on the way to a bond. */
export function Step({ title, hint, fault, children }: Props) {
  return (
    <fieldset className={styles['step']}>
      <legend>{title}</legend>
      {hint !== undefined && <p className={styles['hint']}>{hint}</p>}
      {children}
      {fault !== undefined && (
        <p className={styles['fault']} role="alert">
          {fault}
        </p>
      )}
    </fieldset>
  )
}
