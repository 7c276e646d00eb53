import { useIsPhone } from '../../lib/use-is-phone.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { t } from '../../lib/reader.ts'

/** The time on the wall of the shop in view: every time on the screen is on this clock. */
export function ShopClock() {
  const { shop } = useShopScope()
  const nowMs = useNow(10_000)
  const isPhone = useIsPhone()
  if (shop === undefined) return null
  const now = new Date(nowMs).toISOString()
  return (
    <time dateTime={now} title={t('app.timeIn', { name: shop.name, timeZone: shop.timeZone })}>
      {formatInstant(now, shop.timeZone, isPhone ? 'clock' : 'dayClock')}
    </time>
  )
}
