import { useQuery } from '@tanstack/react-query'
import { Thermometer } from 'lucide-react'
import { rich, strong } from '../../lib/rich.tsx'
import { formatTemperature } from '../../lib/measures.ts'
import { temperatureQueries } from '../../api/queries/temperature.ts'
import type { BayBoardRow, Shop } from '../../api/types.ts'
import { formatNear } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import styles from './bays.module.css'
import { coldestAhead } from './bay-standing.ts'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly row: BayBoardRow
  readonly shop: Shop
}

/** The bay's air now, and the coldest that the coming hours are forecast to bring. */
export function BayTemperature({ row, shop }: Props) {
  const nowMs = useNow(60_000)
  const { resource, temperatureC, temperatureAt } = row
  const bay = useQuery(temperatureQueries.bay(resource.id, shop.id))
  const coldest = coldestAhead(bay.data?.forecast ?? [])
  if (temperatureC === null || temperatureAt === null) {
    return <span className={styles['soft']}>{t('bays.noThermometerReading')}</span>
  }
  const unit = reader().temperature
  const isOld = nowMs - Date.parse(temperatureAt) > 60 * 60_000
  return (
    <span className={styles['temperature']}>
      <Thermometer size={16} aria-hidden />
      <span>
        {isOld
          ? rich('bays.temperatureAt', {
              temperature: formatTemperature(temperatureC, unit),
              at: formatNear(temperatureAt, shop.timeZone, nowMs),
              b: strong,
            })
          : strong(formatTemperature(temperatureC, unit))}
        {coldest !== undefined && coldest.expectedC < temperatureC - 1 && (
          <>
            {' '}
            {t('bays.downTo', {
              expectedC: formatTemperature(coldest.expectedC, unit, 0),
              at: formatNear(coldest.at, shop.timeZone, nowMs),
            })}
          </>
        )}
      </span>
    </span>
  )
}
