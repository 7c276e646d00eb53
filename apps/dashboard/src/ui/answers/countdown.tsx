import { formatCountdown, speakCountdown } from '../../lib/countdown.ts'
import styles from './countdown.module.css'
import type { Tone } from './tone.ts'

interface Props {
  readonly remainingMs: number
  /** Time that is left for something, or time until something may be done: each is rounded the careful way. */
  readonly towards: 'deadline' | 'ready'
  readonly tone: Tone
  readonly size?: 'row' | 'large'
}

/** A running clock. A screen reader hears minutes when it looks, and isn't told every second. */
export function Countdown({ remainingMs, towards, tone, size = 'row' }: Props) {
  return (
    <span className={`${styles['clock']} ${styles[tone]} ${styles[size]}`} role="timer" aria-live="off">
      <span aria-hidden>{formatCountdown(remainingMs, towards)}</span>
      <span className={styles['spoken']}>{speakCountdown(remainingMs, towards)}</span>
    </span>
  )
}
