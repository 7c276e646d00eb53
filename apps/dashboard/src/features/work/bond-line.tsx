import { Link } from '@tanstack/react-router'
import type { Bond } from '../../api/types.ts'
import { formatNear } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useServerNow } from '../../lib/use-now.ts'
import { NEVER } from '../../lib/words.ts'
import { Countdown } from '../../ui/answers/countdown.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import { bondClock } from '../bonds/bond-clock.ts'
import { ClampButton } from '../bonds/clamp-button.tsx'
import { isOldAnswer } from '../bonds/freshness.ts'
import styles from './work.module.css'

/**
 * A bond of one's own in short: how long the joint may stay open, or how long it must stay under its clamps, and the next
 * step. It never says yes: that is asked for on the job's own page, of the service.
 */
export function BondLine({ bond }: { readonly bond: Bond }) {
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
            <Mark tone="warning">Close and clamp the joint within</Mark>
            {clock.workTimeEndsMs === null ? (
              <span>The work time cannot be given: add a panel temperature.</span>
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
            The work time is over
          </Mark>
        )}
        {clock.phase === 'curing' &&
          (isOldAnswer(bond.moveCheck.asOf, now) ? (
            <Mark tone="quiet">Asking the service how far it has cured: leave it under its clamps</Mark>
          ) : (
            <Mark tone="curing">
              {clock.readyAt.kind === 'at'
                ? `Curing: sure by ${near(clock.readyAt.atMs)}`
                : `Curing. ${NEVER[clock.readyAt.reason]}`}
            </Mark>
          ))}
        {clock.phase === 'ready' && (
          <Mark tone="quiet">Its time has come: ask before the clamps come off</Mark>
        )}
      </div>
      <div className={styles['step']}>
        {bond.state === 'applied' && <ClampButton bond={bond} />}
        {clock.phase === 'ready' && (
          <Link
            to="/jobs/$repairOrderId"
            params={{ repairOrderId: bond.repairOrderId }}
            className={styles['go']}
          >
            May I move it?
          </Link>
        )}
      </div>
    </>
  )
}
