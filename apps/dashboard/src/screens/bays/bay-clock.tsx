import { rich, strong } from '../../lib/rich.tsx'
import type { ServerNow } from '../../api/server-clock.ts'
import { formatNear, toWholeMinute } from '../../lib/instants.ts'
import { NEVER } from '../../lib/words.ts'
import { Countdown } from '../../ui/answers/countdown.tsx'
import styles from './bays.module.css'
import type { BayStanding } from './bay-standing.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly standing: BayStanding
  readonly zone: string
  readonly now: ServerNow
}

/** The large clock of a bay, and beneath it the instants it is about. */
export function BayClock({ standing, zone, now }: Props) {
  const { counting, governing } = standing
  const near = (ms: number) => formatNear(new Date(ms).toISOString(), zone, now.expectedMs)
  if (counting === null) {
    const ready = governing?.clock.readyAt
    const phase = governing?.clock.phase
    return (
      <div className={styles['clock']}>
        {phase === 'curing' && ready?.kind === 'never' && NEVER[ready.reason]}
        {phase === 'ready' && ready?.kind === 'at' && (
          <span>{rich('bays.sureSince', { at: near(toWholeMinute(ready.atMs)), b: strong })}</span>
        )}
      </div>
    )
  }
  const expected = governing?.clock.expectedAt
  const isCuring = governing?.clock.phase === 'curing'
  return (
    <div className={styles['clock']}>
      <Countdown
        remainingMs={counting.toMs - (counting.towards === 'deadline' ? now.latestMs : now.earliestMs)}
        towards={counting.towards}
        tone={standing.tone}
      />
      <span className={styles['soft']}>{counting.label}</span>
      {isCuring && (
        <>
          <span>{rich('bays.sure', { at: near(toWholeMinute(counting.toMs)), b: strong })}</span>
          {expected?.kind === 'at' && (
            <span>{t('bays.expected', { atMs: near(toWholeMinute(expected.atMs)) })}</span>
          )}
        </>
      )}
    </div>
  )
}
