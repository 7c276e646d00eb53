import { Link } from '@tanstack/react-router'
import { useMay } from '../../api/use-me.ts'
import { Page } from '../../ui/page.tsx'
import { Empty } from '../../ui/waiting.tsx'
import { t } from '../../lib/reader.ts'

/** For every screen about a shop while there is none to see. */
export function NoShop({ title }: { readonly title: string }) {
  const mayAdd = useMay()('manageChain', null)
  return (
    <Page title={title}>
      {mayAdd ? (
        <Empty
          title={t('features.noShopYet')}
          action={<Link to="/admin/shops">{t('features.addTheFirstShop')}</Link>}
        >
          {t('features.baysStockAndSchedulesBelongToAShop')}
        </Empty>
      ) : (
        <Empty title={t('features.youSeeNoShopYet')}>{t('features.anOwnerGivesYouARoleInOne')}</Empty>
      )}
    </Page>
  )
}
