import { Circle, CircleCheck, CircleDot } from 'lucide-react'
import type { ReactNode } from 'react'
import { t } from '../../lib/reader.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './start-bond.module.css'

/** Whether a step is behind, at hand, or still to come. */
export type StepState = 'done' | 'now' | 'next'

interface Props {
  readonly title: string
  readonly state: StepState
  readonly hint?: ReactNode
  readonly fault?: string | undefined
  readonly children: ReactNode
}

const TONE = { done: 'ready', now: 'curing', next: 'quiet' } as const
const ICON = { done: CircleCheck, now: CircleDot, next: Circle } as const

/** One of the five steps on the way to a bond. */
export function Step({ title, state, hint, fault, children }: Props) {
  return (
    <fieldset className={`${styles['step']} ${styles[state] ?? ''}`}>
      <legend>{title}</legend>
      <p className={styles['state']}>
        <Mark tone={TONE[state]} icon={ICON[state]}>
          {t('start-bond.stepState', { state })}
        </Mark>
      </p>
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
