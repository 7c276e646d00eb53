/* oxlint-disable jsx-a11y/prefer-tag-over-role -- rows laid out by place: table elements with another display lose their meaning */
import { Link } from '@tanstack/react-router'
import { formatVolume } from '../../lib/measures.ts'
import type { Cartridge } from '../../api/types.ts'
import { standingOf } from '../../features/stock/standing.ts'
import { lastDay } from '../../features/stock/until.ts'
import { formatDistance } from '../../lib/countdown.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { CARTRIDGE_STATE, EXPIRY_LIMIT } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './cartridge-list.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly cartridge: Cartridge
  readonly index: number
  readonly rowHeightPx: number
  readonly showShop: boolean
}

export function CartridgeRow({ cartridge, index, rowHeightPx, showShop }: Props) {
  const nowMs = useNow(60_000)
  const shop = useShop(cartridge.shopId)
  const standing = standingOf(cartridge, nowMs)
  const { effectiveExpiryAt: until } = cartridge
  return (
    <div
      role="row"
      aria-rowindex={index + 2}
      className={styles['row']}
      style={{ position: 'absolute', insetInline: 0, top: index * rowHeightPx, height: rowHeightPx }}
    >
      <span role="cell">
        <Mark tone={standing.tone}>{standing.word}</Mark>
      </span>
      <span role="cell" className={styles['code']}>
        <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: cartridge.id }}>
          {cartridge.code}
        </Link>
      </span>
      <span role="cell" className={styles['product']}>
        <span>{cartridge.productName}</span>
        <small>{t('stock.lot', { lotNumber: cartridge.lotNumber })}</small>
      </span>
      <span role="cell" className={styles['where']}>
        {showShop && <span>{shop?.name}</span>}
        <small>{cartridge.locationName ?? t('stock.noPlaceGiven')}</small>
      </span>
      <span role="cell" className={styles['content']}>
        <span>{CARTRIDGE_STATE[cartridge.state]}</span>
        <small>{formatVolume(cartridge.remainingMl)}</small>
      </span>
      <span role="cell" className={styles['until']}>
        <time dateTime={until}>{lastDay(until, zoneOf(shop))}</time>
        <small title={cartridge.expiryReason}>
          {formatDistance(Date.parse(until), nowMs)} · {EXPIRY_LIMIT[cartridge.expiryLimit]}
        </small>
      </span>
    </div>
  )
}
