import { formatMoney } from '@clampclock/quantities'
import { useQuery } from '@tanstack/react-query'
import { replenishmentQueries } from '../../api/queries/replenishment.ts'
import { useMay } from '../../api/use-me.ts'
import { useShopScope } from '../../lib/shop-scope.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { Transfers } from './transfers.tsx'
import { WasteTable } from './waste-table.tsx'

/** What will be thrown away if nothing is done, and what could be sent to where it is used. */
export function WasteScreen() {
  const { shop } = useShopScope()
  const may = useMay()
  const waste = useQuery(replenishmentQueries.waste(shop?.id))
  return (
    <Page
      title="Waste"
      lede={`${shop?.name ?? 'All shops'}: what expires before it is used, by what was used in the last year`}
    >
      <Answered query={waste} what="the waste forecast">
        {({ items, currency, expectedCents, expiredCents }) => {
          const coming = items.filter(({ isExpired }) => !isExpired)
          const dead = items.filter(({ isExpired }) => isExpired)
          return (
            <>
              <Facts
                facts={[
                  ['Expected loss', formatMoney(expectedCents, currency)],
                  ['Expired on the shelf now', formatMoney(expiredCents, currency)],
                ]}
              />
              {may('handleStock') && <Transfers />}
              <Section title="Will expire unused">
                {coming.length === 0 ? (
                  <Empty title="Nothing: all of it will be used in time." />
                ) : (
                  <WasteTable caption="Expected loss by lot and shop" lines={coming} currency={currency} />
                )}
              </Section>
              {dead.length > 0 && (
                <Section title="Expired on the shelf">
                  <WasteTable caption="Expired and not yet discarded" lines={dead} currency={currency} />
                </Section>
              )}
            </>
          )
        }}
      </Answered>
    </Page>
  )
}
