import { NativeSelect } from '@mantine/core'
import { useShopScope } from '../../lib/shop-scope.ts'
import { t } from '../../lib/reader.ts'

/** One shop or all of them. */
export function ShopSwitch() {
  const { shop, shops, choose } = useShopScope()
  if (shops.length < 2) return <strong>{shop?.name}</strong>
  return (
    <NativeSelect
      aria-label={t('app.shopInView')}
      value={shop?.id ?? ''}
      onChange={(event) => choose(event.currentTarget.value === '' ? undefined : event.currentTarget.value)}
      data={[
        { value: '', label: t('app.allShops') },
        ...shops.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  )
}
