import { formatTemperature } from '../../../lib/measures.ts'
import type { LotStorage } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import styles from './storage-plot.module.css'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly storage: LotStorage
  readonly unit: 'C' | 'F'
}

const WIDTH = 960
const HEIGHT = 180
const LEFT = 56
const BOTTOM = 24

/** A bar a day, from the coldest to the warmest reading, against the storage range. The table beside it says the same. */
export function StoragePlot({ storage, unit }: Props) {
  const days = storage.places.flatMap((place) => place.days)
  if (days.length < 2) return null
  const { min, max } = storage.storageRangeC
  const times = days.map(({ day }) => Date.parse(day))
  const firstMs = Math.min(...times)
  const lastMs = Math.max(...times) + 86_400_000
  const low = Math.min(min, ...days.map(({ coldestC }) => coldestC)) - 2
  const high = Math.max(max, ...days.map(({ warmestC }) => warmestC)) + 2
  const x = (ms: number) => LEFT + ((ms - firstMs) / (lastMs - firstMs)) * (WIDTH - LEFT)
  const y = (c: number) => ((high - c) / (high - low)) * (HEIGHT - BOTTOM)
  const barWidth = Math.max(1, x(firstMs + 86_400_000) - x(firstMs) - 1)
  return (
    <figure className={styles['figure']}>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden>
        <rect x={LEFT} width={WIDTH - LEFT} y={y(max)} height={y(min) - y(max)} className={styles['range']} />
        {[min, max].map((c) => (
          <text key={c} x={LEFT - 6} y={y(c) + 4} textAnchor="end">
            {formatTemperature(c, unit, 0)}
          </text>
        ))}
        {days.map(({ day, coldestC, warmestC }, index) => (
          <rect
            key={`${day} ${index}`}
            x={x(Date.parse(day))}
            width={barWidth}
            y={y(warmestC)}
            height={Math.max(2, y(coldestC) - y(warmestC))}
            className={coldestC < min || warmestC > max ? styles['out'] : styles['in']}
          />
        ))}
        <text x={LEFT} y={HEIGHT - 6}>
          {formatInstant(new Date(firstMs).toISOString(), 'utc', 'date')}
        </text>
        <text x={WIDTH} y={HEIGHT - 6} textAnchor="end">
          {formatInstant(new Date(lastMs - 1).toISOString(), 'utc', 'date')}
        </text>
      </svg>
      <figcaption>{t('stock.eachDayFromItsColdestToItsWarmest')}</figcaption>
    </figure>
  )
}
