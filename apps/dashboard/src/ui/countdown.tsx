import { formatCountdown, speakCountdown } from '../lib/countdown.ts'
import styles from './countdown.module.css'
import type { Tone } from './tone.ts'

interface Props {
  readonly remainingMs: number
  readonly tone: Tone
  readonly size?: 'row' | 'large'
}

/** A running clock. A screen reader hears minutes when it looks, and isn't told every second. */
export function Countdown({ remainingMs, tone, size = 'row' }: Props) {
  return (
    <span className={`${styles['clock']} ${styles[tone]} ${styles[size]}`} role="timer" aria-live="off">
      <span aria-hidden>{formatCountdown(remainingMs)}</span>
      <span className={styles['spoken']}>{speakCountdown(remainingMs)}</span>
    </span>
  )
}
