import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Shop } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../features/shops/one-shop-picker.tsx'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { ExceptionSection } from './exception-section.tsx'
import { FeedSection } from './feed-section.tsx'
import { HoursSection } from './hours-section.tsx'
import { ImportSection } from './import-section.tsx'
import { TemplateSection } from './template-section.tsx'
import { t } from '../../lib/reader.ts'

/** What a plan is made from: the working week, the days on which it does not hold, what repairs take, and the orders themselves. */
export function PlanSetupScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? (
    <NoShop title={t('plan-setup.hoursAndTemplates')} />
  ) : (
    <PlanSetup key={shop.id} shop={shop} />
  )
}

function PlanSetup({ shop }: { readonly shop: Shop }) {
  const mayPlan = useMay()('planWork', shop.id)
  const resources = useQuery(shopQueries.resources(shop.id))
  const items = resources.data?.items ?? []
  return (
    <Page
      title={t('plan-setup.hoursAndTemplates')}
      lede={
        <>
          {t('plan-setup.onItsOwnClock', { name: shop.name })}{' '}
          <Link to="/plan">{t('plan-setup.backToThePlan')}</Link>
        </>
      }
      actions={<OneShopPicker />}
    >
      <HoursSection shop={shop} resources={items} mayPlan={mayPlan} />
      <ExceptionSection shop={shop} resources={items} mayPlan={mayPlan} />
      <TemplateSection shop={shop} mayPlan={mayPlan} />
      {mayPlan && <ImportSection shop={shop} />}
      {mayPlan && <FeedSection shop={shop} resources={items} />}
    </Page>
  )
}
