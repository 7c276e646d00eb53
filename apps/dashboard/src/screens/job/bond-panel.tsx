import { Help } from '../../ui/help/help.tsx'
import { formatMinutes } from '../../lib/measures.ts'
import type { ServerNow } from '../../api/server-clock.ts'
import type { Bond } from '../../api/types.ts'
import { repairQueries } from '../../api/queries/repairs.ts'
import { bondClock, type BondClock } from '../../features/bonds/bond-clock.ts'
import { isOldAnswer, useDoubt } from '../../features/bonds/freshness.ts'
import { formatNear, toWholeMinute } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useServerNow } from '../../lib/use-now.ts'
import { NEVER } from '../../lib/words.ts'
import { Countdown } from '../../ui/answers/countdown.tsx'
import { CureRule } from '../../ui/answers/cure-rule.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import { BondActions } from './bond-actions.tsx'
import { CurveDetails } from './curve-details.tsx'
import { IncidentRow } from './incidents/incident-row.tsx'
import { Fold } from '../../ui/fold.tsx'
import { lazily } from '../../ui/lazily.tsx'
import styles from './job.module.css'
import { t } from '../../lib/reader.ts'

const PlaceBond = lazily(async () => (await import('./place-bond.tsx')).PlaceBond)

const BondDetails = lazily(async () => (await import('./bond-details.tsx')).BondDetails)

/** The latest attempt at a joint: its clock, what may be done with it, what went wrong. */
export function BondPanel({ bond }: { readonly bond: Bond }) {
  const now = useServerNow()
  const nowMs = now.expectedMs
  const zone = zoneOf(useShop(bond.shopId))
  const clock = bondClock(bond, now)
  const ofJob = repairQueries.one(bond.repairOrderId).queryKey
  const isChanged = useDoubt(ofJob, bond.moveCheck.asOf, now, bond.repairOrderId)
  const isOld = isOldAnswer(bond.moveCheck.asOf, now)
  // The clock on the phone never says yes by itself: the service must have said so, and of late.
  const isReachedThere = bond.estimate.handlingStrength.progress.conservative >= 1
  const isReady = clock.phase === 'ready' && isReachedThere
  const isAsking = clock.phase === 'ready' ? !isReady || isChanged : clock.phase === 'curing' && isOld
  return (
    <>
      {isAsking ? (
        <Mark tone="quiet">{t('job.askingTheServiceHowFarItHasCured')}</Mark>
      ) : (
        <BondState bond={bond} clock={clock} now={now} zone={zone} />
      )}
      <ToldLate bond={bond} />
      {bond.bayId === null && (bond.state === 'applied' || bond.state === 'clamped') && (
        <PlaceBond bond={bond} />
      )}
      {bond.incidents.map((incident) => (
        <IncidentRow key={incident.id} incident={incident} shopId={bond.shopId} nowMs={nowMs} zone={zone} />
      ))}
      <BondActions key={bond.id} bond={bond} clock={clock} mayRelease={isReady && !isOld} />
      <CurveDetails bond={bond} />
      <Fold summary={t('job.howThisWasWorkedOut')} className={styles['details']}>
        <BondDetails bond={bond} clock={clock} />
      </Fold>
    </>
  )
}

/** What was entered long after it happened says so: it makes nothing ready sooner. */
function ToldLate({ bond }: { readonly bond: Bond }) {
  const { appliedMinutes, clampedMinutes } = bond.toldLate
  const told = [
    ...(appliedMinutes === null
      ? []
      : [t('job.theApplication', { appliedMinutes: formatMinutes(appliedMinutes, 'up') })]),
    ...(clampedMinutes === null
      ? []
      : [t('job.theClamping', { clampedMinutes: formatMinutes(clampedMinutes, 'up') })]),
  ]
  if (told.length === 0) return null
  return (
    <p className={styles['soft']}>{t('job.enteredLateAfterItIsSaidToHave', { value: told.join(', ') })}</p>
  )
}

interface StateProps {
  readonly bond: Bond
  readonly clock: BondClock
  readonly now: ServerNow
  readonly zone: string
}

function BondState({ bond, clock, now, zone }: StateProps) {
  const nowMs = now.expectedMs
  const near = (at: string | number) => formatNear(new Date(at).toISOString(), zone, nowMs)
  const { handlingStrength } = clock.estimate
  switch (clock.phase) {
    case 'open':
      return (
        <div className={styles['clockLine']}>
          <Mark tone="warning">{t('job.closeAndClampTheJointWithin')}</Mark>
          {clock.workTimeEndsMs === null ? (
            <p>{t('job.theWorkTimeCannotBeGivenAddAPanel')}</p>
          ) : (
            <Countdown
              remainingMs={clock.workTimeEndsMs - now.latestMs}
              towards="deadline"
              tone="warning"
              size="large"
            />
          )}
          <p className={styles['soft']}>
            {t('job.appliedAt', { at: near(bond.appliedAt) })}{' '}
            {clock.isIfSteady && `${t('job.ifTheMetalStaysAsMeasuredThisBayHas')} `}
            {t('job.slideToAlign')}
          </p>
        </div>
      )
    case 'late':
      return (
        <div className={styles['clockLine']}>
          <Mark tone="danger" filled>
            {t('job.theWorkTimeIsOver')}
          </Mark>
          <p className={styles['soft']}>
            {t('job.appliedAbandonThisAttemptOrRecord', { appliedAt: near(bond.appliedAt) })}
          </p>
        </div>
      )
    case 'curing':
    case 'ready':
      return (
        <div className={styles['clockLine']}>
          <div>
            {clock.phase === 'ready' ? (
              <Mark tone="ready">{t('job.handlingStrengthReached')}</Mark>
            ) : (
              <Mark tone="curing">{untilText(clock, near)}</Mark>
            )}
            <Help of="handlingStrength" name={t('job.handlingStrength')} />
          </div>
          <CureRule
            label={t('job.cureOf', { jointName: bond.jointName })}
            conservative={handlingStrength.progress.conservative}
            expected={handlingStrength.progress.expected}
          />
        </div>
      )
    case 'released': {
      const isOpen = bond.incidents.some(
        ({ kind, disposition }) => kind !== 'gateOverridden' && disposition === null,
      )
      const isRedone = bond.incidents.some(({ disposition }) => disposition?.kind === 'redone')
      return (
        <Mark tone={isOpen || isRedone ? 'danger' : 'ready'}>
          {t('job.clampsOff', { releasedAt: bond.releasedAt === null ? '' : near(bond.releasedAt) })}
        </Mark>
      )
    }
    case 'abandoned':
      return (
        <Mark tone="quiet">
          {bond.wasLifted
            ? t('job.attemptLiftedApart', { attempt: bond.attempt })
            : t('job.attemptAbandoned', { attempt: bond.attempt })}
          {bond.abandonReason === null ? '' : `: ${bond.abandonReason}`}
        </Mark>
      )
  }
}

function untilText({ readyAt, expectedAt }: BondClock, near: (ms: number) => string): string {
  if (readyAt.kind === 'never') return t('features.curingNever', { why: NEVER[readyAt.reason] })
  const atMs = near(toWholeMinute(readyAt.atMs))
  return expectedAt.kind === 'at'
    ? t('job.curingSureByExpected', { atMs, expected: near(toWholeMinute(expectedAt.atMs)) })
    : t('features.curingSureBy', { atMs })
}
