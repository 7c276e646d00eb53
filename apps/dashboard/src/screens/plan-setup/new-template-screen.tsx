import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { planningQueries } from '../../api/queries/planning.ts'
import { useMay } from '../../api/use-me.ts'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { TemplateForm } from './template-form.tsx'
import { t } from '../../lib/reader.ts'

/** A template of the shop's own: from nothing, or as a copy. */
export function NewTemplateScreen() {
  const { shop } = useOneShop()
  const { from } = useSearch({ from: '/in/plan/setup/new' })
  const may = useMay()
  const templates = useQuery({
    ...planningQueries.templates(shop?.id ?? ''),
    enabled: shop !== undefined,
  })
  if (shop === undefined) return <NoShop title={t('plan-setup.newTemplate')} />
  return (
    <Page
      title={t('plan-setup.newTemplate')}
      lede={
        <>
          {shop.name}. <Link to="/plan/setup">{t('plan-setup.backToHoursAndTemplates')}</Link>
        </>
      }
    >
      <Answered query={templates} what={t('plan-setup.theTemplates')}>
        {({ items }) => {
          const copied = items.find(({ key }) => key === from)
          return (
            <TemplateForm
              key={`${shop.id} ${from}`}
              shop={shop}
              mayPlan={may('planWork', shop.id)}
              start={{
                name: copied === undefined ? '' : t('plan-setup.copy3', { name: copied.name }),
                steps: copied?.steps ?? [],
                isSetAside: false,
              }}
              taken={items.map(({ key }) => key)}
              presentVersion={0}
            />
          )
        }}
      </Answered>
    </Page>
  )
}
