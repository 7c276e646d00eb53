import { Link } from '@tanstack/react-router'
import { scheduleQueries } from '../../api/queries/schedule.ts'
import type { BayBoardRow, Shop } from '../../api/types.ts'
import { useDoubt } from '../../features/bonds/freshness.ts'
import { formatNear } from '../../lib/instants.ts'
import { useServerNow } from '../../lib/use-now.ts'
import { RESOURCE } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import styles from './bays.module.css'
import { BayClock } from './bay-clock.tsx'
import { BayCure } from './bay-cure.tsx'
import { bayStanding } from './bay-standing.ts'
import { BayTemperature } from './bay-temperature.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly row: BayBoardRow
  readonly shop: Shop
  readonly asOf: string
}

export function BayRow({ row, shop, asOf }: Props) {
  const now = useServerNow()
  const nowMs = now.expectedMs
  const { resource, current, next } = row
  const ofBoard = scheduleQueries.bayBoard(shop.id).queryKey
  const isInDoubt = useDoubt(ofBoard, asOf, now, current?.repairOrderId ?? row.bonds[0]?.repairOrderId)
  const standing = bayStanding(row, now, isInDoubt)
  const clash = current?.clash ?? null
  const bonded = standing.bonds[0]?.bond
  const repairOrderId = current?.repairOrderId ?? bonded?.repairOrderId
  const near = (at: string) => formatNear(at, shop.timeZone, nowMs)
  return (
    <li className={`${styles['row']} ${styles[clash === null ? standing.tone : 'danger']}`}>
      <div className={styles['bay']}>
        <h2>{resource.name}</h2>
        <Mark tone={standing.tone} filled>
          {resource.kind === 'oven' && standing.isFree
            ? t('bays.free2', { oven: RESOURCE.oven })
            : standing.word}
        </Mark>
        <BayTemperature row={row} shop={shop} />
      </div>
      <div className={styles['vehicle']}>
        {repairOrderId === undefined ? (
          <span className={styles['soft']}>{t('bays.nothingStandsHere')}</span>
        ) : (
          <>
            <Link to="/jobs/$repairOrderId" params={{ repairOrderId }} className={styles['name']}>
              {current?.vehicle ?? bonded?.vehicle}
            </Link>
            <span>{current?.repairOrderNumber ?? bonded?.repairOrderNumber}</span>
          </>
        )}
        {current !== null && (
          <span className={styles['soft']}>{t('bays.bookedUntil', { endsAt: near(current.endsAt) })}</span>
        )}
        {next !== null && (
          <span className={styles['soft']}>
            {t('bays.next', { startsAt: near(next.startsAt), vehicle: next.vehicle })}
          </span>
        )}
      </div>
      <BayCure bonds={standing.bonds} isAsking={standing.isAsking} />
      {standing.isAsking ? (
        <div className={styles['clock']} />
      ) : (
        <BayClock standing={standing} zone={shop.timeZone} now={now} />
      )}
      {row.held.length > 0 && (
        <div className={styles['clash']}>
          <ReasonList reasons={row.held} />
        </div>
      )}
      {clash !== null && (
        <div className={styles['clash']}>
          <Mark tone="danger">{t('bays.clash')}</Mark>
          <span>
            {clash.message} <strong>{clash.proposal}</strong>
          </span>
        </div>
      )}
    </li>
  )
}
