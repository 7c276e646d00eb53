import { useQuery } from '@tanstack/react-query'
import { replenishmentQueries } from '../../../api/queries/replenishment.ts'
import { Page } from '../../../ui/page.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { LaneSection } from './lane-section.tsx'
import { PolicySection } from './policy-section.tsx'
import { SupplierSection } from './supplier-section.tsx'
import { SupplySection } from './supply-section.tsx'
import { t } from '../../../lib/reader.ts'

/** What the proposals of orders and transfers are computed from. */
export function OrderingSetupScreen() {
  const policy = useQuery(replenishmentQueries.policy())
  return (
    <Page title={t('admin.orderingSetUp')} lede={t('admin.whatProposalsOfOrdersAndTransfersAre')}>
      <AdminNav />
      <Answered query={policy} what={t('admin.theSetUpOfOrdering')}>
        {(found) => (
          <>
            <SupplierSection currency={found.currency} />
            <SupplySection currency={found.currency} />
            <PolicySection policy={found} />
            <LaneSection currency={found.currency} />
          </>
        )}
      </Answered>
    </Page>
  )
}
