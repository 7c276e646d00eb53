import { formatMoney } from '../../lib/measures.ts'
import { useQuery } from '@tanstack/react-query'
import { replenishmentQueries } from '../../api/queries/replenishment.ts'
import { useMay } from '../../api/use-me.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { Transfers } from './transfers.tsx'
import { WasteTable } from './waste-table.tsx'
import { t } from '../../lib/reader.ts'

/** What will be thrown away if nothing is done, and what could be sent to where it is used. */
export function WasteScreen() {
  const { shop } = useShopScope()
  const may = useMay()
  const waste = useQuery(replenishmentQueries.waste(shop?.id))
  return (
    <Page
      title={t('waste.waste')}
      lede={t('waste.whatExpiresBeforeItIsUsedByWhatWas', { name: shop?.name ?? t('waste.allShops') })}
    >
      <Answered query={waste} what={t('waste.theWasteForecast')}>
        {({ items, currency, expectedCents, expiredCents }) => {
          const coming = items.filter(({ isExpired }) => !isExpired)
          const dead = items.filter(({ isExpired }) => isExpired)
          return (
            <>
              <Facts
                facts={[
                  [t('waste.expectedLoss'), formatMoney(expectedCents, currency)],
                  [t('waste.expiredOnTheShelfNow'), formatMoney(expiredCents, currency)],
                ]}
              />
              {may('handleStock') && <Transfers />}
              <Section title={t('waste.willExpireUnused')}>
                {coming.length === 0 ? (
                  <Empty title={t('waste.nothingAllOfItWillBeUsedInTime')} />
                ) : (
                  <WasteTable
                    caption={t('waste.expectedLossByLotAndShop')}
                    lines={coming}
                    currency={currency}
                  />
                )}
              </Section>
              {dead.length > 0 && (
                <Section title={t('waste.expiredOnTheShelf')}>
                  <WasteTable
                    caption={t('waste.expiredAndNotYetDiscarded')}
                    lines={dead}
                    currency={currency}
                  />
                </Section>
              )}
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
