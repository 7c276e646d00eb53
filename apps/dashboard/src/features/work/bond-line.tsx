import { Link } from '@tanstack/react-router'
import type { Bond } from '../../api/types.ts'
import { formatNear, toWholeMinute } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useServerNow } from '../../lib/use-now.ts'
import { NEVER } from '../../lib/words.ts'
import { Countdown } from '../../ui/answers/countdown.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import { bondClock } from '../bonds/bond-clock.ts'
import { ClampButton } from '../bonds/clamp-button.tsx'
import { isOldAnswer } from '../bonds/freshness.ts'
import styles from './work.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly hasStep?: boolean
  /** It stands over the screen of something else. */
  readonly isOverAnother?: boolean
}

/**
 * A bond of one's own in short: how long the joint may stay open, or how long it must stay under its clamps, and the next
 * step. It never says yes: that is asked for on the job's own page, of the service.
 */
export function BondLine({ bond, hasStep = true, isOverAnother = false }: Props) {
  const now = useServerNow()
  const zone = zoneOf(useShop(bond.shopId))
  const clock = bondClock(bond, now)
  const near = (atMs: number) => formatNear(new Date(atMs).toISOString(), zone, now.expectedMs)
  return (
    <>
      <div className={styles['what']}>
        <strong>{bond.jointName}</strong>
        <Link to="/jobs/$repairOrderId" params={{ repairOrderId: bond.repairOrderId }}>
          {bond.repairOrderNumber} · {bond.vehicle}
        </Link>
      </div>
      <div className={styles['state']}>
        {clock.phase === 'open' && (
          <>
            <Mark tone="warning">{t('features.closeAndClampTheJointWithin')}</Mark>
            {clock.workTimeEndsMs === null ? (
              <span>{t('features.theWorkTimeCannotBeGivenAddAPanel')}</span>
            ) : (
              <Countdown
                remainingMs={clock.workTimeEndsMs - now.latestMs}
                towards="deadline"
                tone="warning"
              />
            )}
          </>
        )}
        {clock.phase === 'late' && (
          <Mark tone="danger" filled>
            {t('features.theWorkTimeIsOver')}
          </Mark>
        )}
        {clock.phase === 'curing' &&
          (isOldAnswer(bond.moveCheck.asOf, now) ? (
            <Mark tone="quiet">{t('features.askingTheServiceHowFarItHasCured')}</Mark>
          ) : (
            <Mark tone="curing">
              {clock.readyAt.kind === 'at'
                ? t('features.curingSureBy', { atMs: near(toWholeMinute(clock.readyAt.atMs)) })
                : t('features.curingNever', { why: NEVER[clock.readyAt.reason] })}
            </Mark>
          ))}
        {clock.phase === 'ready' && (
          <Mark tone="quiet">{t('features.itsTimeHasComeAskBeforeTheClampsCome')}</Mark>
        )}
      </div>
      <div className={styles['step']}>
        {bond.state === 'applied' && hasStep && <ClampButton bond={bond} isPressedTwice={isOverAnother} />}
        {clock.phase === 'ready' && (
          <Link
            to="/jobs/$repairOrderId"
            params={{ repairOrderId: bond.repairOrderId }}
            className={styles['go']}
          >
            {t('features.mayIMoveIt')}
          </Link>
        )}
      </div>
    </>
  )
}
