import { NativeSelect } from '@mantine/core'
import { useOneShop, useShopScope } from '../../lib/shop-scope.ts'
import { t } from '../../lib/reader.ts'

/** On screens that show one shop at a time, while all shops are in view: which one. */
export function OneShopPicker() {
  const scope = useShopScope()
  const { shop, shops, choose } = useOneShop()
  if (scope.shop !== undefined || shops.length < 2) return null
  return (
    <NativeSelect
      aria-label={t('features.shopOnThisScreen')}
      value={shop?.id ?? ''}
      data={shops.map(({ id, name }) => ({ value: id, label: name }))}
      onChange={(event) => choose(event.currentTarget.value)}
    />
  )
}
