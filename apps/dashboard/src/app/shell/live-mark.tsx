import { RefreshCw, WifiOff } from 'lucide-react'
import type { LiveState } from '../../api/live.ts'
import styles from './live-mark.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly state: LiveState
  readonly onRetry: () => void
  /** For places with no room for good news. */
  readonly onlyWhenNotLive?: boolean
}

/** Whether what is on the screen keeps itself current. */
export function LiveMark({ state, onRetry, onlyWhenNotLive = false }: Props) {
  if (onlyWhenNotLive && (state === 'live' || state === 'connecting')) return null
  const chip = onlyWhenNotLive ? styles['chip'] : ''
  if (state === 'live') {
    return (
      <output className={styles['live']}>
        <span className={styles['dot']} aria-hidden />
        {t('app.live')}
      </output>
    )
  }
  if (state === 'lost') {
    return (
      <output className={`${styles['live']} ${chip}`}>
        <WifiOff size={16} aria-hidden />
        {t('app.connectionLost')}
        <button type="button" className={styles['retry']} onClick={onRetry}>
          {t('app.retry')}
        </button>
      </output>
    )
  }
  return (
    <output className={`${styles['live']} ${chip}`}>
      <RefreshCw size={16} aria-hidden />
      {state === 'connecting' ? t('app.connecting') : t('app.reconnecting')}
    </output>
  )
}
