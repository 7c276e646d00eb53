import { useOneShop } from '../../../lib/shop-scope.ts'
import { OneShopPicker } from '../../../features/shops/one-shop-picker.tsx'
import { Page } from '../../../ui/page.tsx'
import { Empty } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { DispenserSection } from './dispenser-section.tsx'
import { InstrumentSection } from './instrument-section.tsx'
import { LocationSection } from './location-section.tsx'
import { ResourceSection } from './resource-section.tsx'
import { SensorSection } from './sensor-section.tsx'
import { t } from '../../../lib/reader.ts'

/** What a shop has: bays, ovens, clamp sets, technicians, dispensers, storage, thermometers, instruments. */
export function EquipmentScreen() {
  const { shop } = useOneShop()
  return (
    <Page
      title={t('admin.baysAndEquipment')}
      {...(shop === undefined ? {} : { lede: shop.name })}
      actions={<OneShopPicker />}
    >
      <AdminNav />
      {shop === undefined ? (
        <Empty title={t('admin.noShopYet')}>{t('admin.addOneUnderShopsFirst')}</Empty>
      ) : (
        <>
          <ResourceSection shopId={shop.id} />
          <DispenserSection shopId={shop.id} />
          <LocationSection shopId={shop.id} />
          <SensorSection shop={shop} />
          <InstrumentSection shop={shop} />
        </>
      )}
    </Page>
  )
}
