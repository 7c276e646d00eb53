import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { myWorkQuery } from '../../../api/queries/my-work.ts'
import type { Cartridge } from '../../../api/types.ts'
import { formatNear } from '../../../lib/instants.ts'
import { t } from '../../../lib/reader.ts'
import { zoneOf, useShop } from '../../../lib/shop-scope.ts'
import { useNow } from '../../../lib/use-now.ts'
import { Section } from '../../../ui/page.tsx'
import styles from './use-it-for.module.css'

/** From the cartridge in the hand straight into the form of a bond that is planned for me; nothing where there is none. */
export function UseItFor({ cartridge }: { readonly cartridge: Cartridge }) {
  const zone = zoneOf(useShop(cartridge.shopId))
  const nowMs = useNow(60_000)
  const tasks = useQuery(myWorkQuery).data?.tasks ?? []
  const bonds = tasks.filter(({ kind, shopId }) => kind === 'bondAndClamp' && shopId === cartridge.shopId)
  if (bonds.length === 0) return null
  const matching = bonds.filter(({ productId }) => productId === cartridge.productId)
  return (
    <Section title={t('stock.useItFor')}>
      {matching.length === 0 ? (
        <p>
          {t('stock.noneOfYourBondsTakesIt', {
            jointName: bonds[0]!.jointName ?? '',
            vehicle: bonds[0]!.vehicle,
            productName: bonds[0]!.productName ?? '',
          })}
        </p>
      ) : (
        <ul className={styles['joints']}>
          {matching.map(({ repairOrderId, jointId, jointName, vehicle, startsAt, waitsFor }) => (
            <li key={jointId}>
              <Link
                to="/jobs/$repairOrderId/joints/$jointId/bond"
                params={{ repairOrderId, jointId: jointId ?? '' }}
                search={(old) => ({ shop: old.shop, cartridge: cartridge.id })}
              >
                {jointName}, {vehicle}
              </Link>{' '}
              <span>
                {t('stock.plannedAt', { at: formatNear(startsAt, zone, nowMs) })}
                {waitsFor !== null && ` · ${t('stock.waits', { waitsFor })}`}
              </span>
            </li>
          ))}
        </ul>
      )}
    </Section>
  )
}
