import { Link } from '@tanstack/react-router'
import type { BayBoardRow, Shop } from '../../api/types.ts'
import { formatNear } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { RESOURCE } from '../../lib/words.ts'
import { Mark } from '../../ui/mark.tsx'
import styles from './bays.module.css'
import { BayClock } from './bay-clock.tsx'
import { BayCure } from './bay-cure.tsx'
import { bayStanding } from './bay-standing.ts'
import { BayTemperature } from './bay-temperature.tsx'

interface Props {
  readonly row: BayBoardRow
  readonly shop: Shop
}

export function BayRow({ row, shop }: Props) {
  const nowMs = useNow()
  const standing = bayStanding(row, nowMs)
  const { resource, current, next } = row
  const clash = current?.clash ?? null
  const bonded = standing.bonds[0]?.bond
  const repairOrderId = current?.repairOrderId ?? bonded?.repairOrderId
  const near = (at: string) => formatNear(at, shop.timeZone, nowMs)
  return (
    <li className={`${styles['row']} ${styles[clash === null ? standing.tone : 'danger']}`}>
      <div className={styles['bay']}>
        <h2>{resource.name}</h2>
        <Mark tone={standing.tone} filled>
          {resource.kind === 'oven' && standing.word === 'Free' ? `${RESOURCE.oven} free` : standing.word}
        </Mark>
        <BayTemperature row={row} shop={shop} />
      </div>
      <div className={styles['vehicle']}>
        {repairOrderId === undefined ? (
          <span className={styles['soft']}>Nothing stands here</span>
        ) : (
          <>
            <Link to="/jobs/$repairOrderId" params={{ repairOrderId }} className={styles['name']}>
              {current?.vehicle ?? bonded?.vehicle}
            </Link>
            <span>{current?.repairOrderNumber ?? bonded?.repairOrderNumber}</span>
          </>
        )}
        {current !== null && <span className={styles['soft']}>Booked until {near(current.endsAt)}</span>}
        {next !== null && (
          <span className={styles['soft']}>
            Next {near(next.startsAt)}: {next.vehicle}
          </span>
        )}
      </div>
      <BayCure bonds={standing.bonds} />
      <BayClock standing={standing} zone={shop.timeZone} nowMs={nowMs} />
      {clash !== null && (
        <div className={styles['clash']}>
          <Mark tone="danger">Clash</Mark>
          <span>
            {clash.message} <strong>{clash.proposal}</strong>
          </span>
        </div>
      )}
    </li>
  )
}
