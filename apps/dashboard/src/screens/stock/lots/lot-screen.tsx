import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Button } from '@mantine/core'
import { Link, useParams } from '@tanstack/react-router'
import { Megaphone } from 'lucide-react'
import { formatVolume } from '../../../lib/measures.ts'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useMay, useShops } from '../../../api/use-me.ts'
import type { Lot } from '../../../api/types.ts'
import { LabelsButton } from '../../../features/labels/labels-button.tsx'
import { Ledger } from '../../../features/stock/ledger.tsx'
import { formatDate, formatInstant } from '../../../lib/instants.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Facts } from '../../../ui/facts.tsx'
import { Page, Section, Sheet } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { CartridgeList } from '../cartridge-list.tsx'
import { LotStorageSections } from './lot-storage.tsx'
import { TraceLinks } from '../../../features/stock/trace-links.tsx'
import { LotHoldButton } from './lot-hold-button.tsx'
import { t } from '../../../lib/reader.ts'

export function LotScreen() {
  const { lotId } = useParams({ from: '/in/stock/lots/$lotId' })
  const lot = useQuery(stockQueries.lot(lotId))
  return (
    <Answered query={lot} what={t('stock.theLot')}>
      {(data) => <LotPage lot={data} />}
    </Answered>
  )
}

function LotPage({ lot }: { readonly lot: Lot }) {
  const may = useMay()
  const mayPrint = may('useStock') && lot.onHand.some(({ sealed, opened }) => sealed + opened > 0)
  const cartridges = useInfiniteQuery(stockQueries.cartridges({ lotId: lot.id }))
  return (
    <Page
      title={t('stock.lot', { lotNumber: lot.lotNumber })}
      lede={lot.productName}
      actions={
        <>
          <LotHoldButton lot={lot} />
          {may('handleStock') && (
            <Button
              variant="default"
              leftSection={<Megaphone size={16} aria-hidden />}
              renderRoot={(props) => (
                <Link {...props} to="/stock/lots/$lotId/recall" params={{ lotId: lot.id }} />
              )}
            >
              {t('stock.recall')}
            </Button>
          )}
          {mayPrint && <LabelsButton what={{ lotId: lot.id }} />}
        </>
      }
    >
      {lot.hold !== null && (
        <Answer tone="danger" question={t('stock.mayItBeUsed')} word={t('stock.noOnHoldInEveryShop')}>
          <p>{lot.hold.reason}</p>
          <p>{t('stock.byUtc', { by: lot.hold.by, since: formatInstant(lot.hold.since, 'utc', 'full') })}</p>
        </Answer>
      )}
      <Section title={t('stock.onFile')}>
        <Sheet padded>
          <Facts
            facts={[
              [
                t('stock.product'),
                <Link key="p" to="/products/$productId" params={{ productId: lot.productId }}>
                  {lot.productName}
                </Link>,
              ],
              [t('stock.printedExpiry'), formatDate(lot.printedExpiry), 'printedExpiry'],
              [
                t('stock.printedAs'),
                lot.expiryPrecision === 'month' ? t('stock.monthOnlyItsLastDayCounts') : t('stock.day'),
              ],
            ]}
          />
        </Sheet>
      </Section>
      <Section title={t('stock.whereItIs')}>
        <OnHand lot={lot} />
      </Section>
      <Section title={t('stock.cartridgesOnHand')}>
        <Answered query={cartridges} what={t('stock.cartridges2')}>
          {({ pages }) => {
            const items = pages.flatMap((page) => page.items)
            if (items.length === 0) return <Empty title={t('stock.noneOnHandAnyMore')} />
            return <CartridgeList items={items} query={cartridges} showShop />
          }}
        </Answered>
      </Section>
      <LotStorageSections lotId={lot.id} />
      <Section title={t('stock.usedIn')}>
        <TraceLinks lotId={lot.id} />
        <Ledger filter={{ lotId: lot.id }} />
      </Section>
    </Page>
  )
}

function OnHand({ lot }: { readonly lot: Lot }) {
  const shops = useShops()
  if (lot.onHand.length === 0) return <Empty title={t('stock.inNoShopAnyMore')} />
  const columns: readonly Column<Lot['onHand'][number]>[] = [
    {
      head: 'stock.shop',
      cell: (row) => shops.find((shop) => shop.id === row.shopId)?.name ?? t('stock.aShopYouMayNotSee'),
    },
    { head: 'stock.sealed', number: true, cell: (row) => row.sealed },
    { head: 'stock.opened', number: true, cell: (row) => row.opened },
    { head: 'stock.volume', number: true, cell: (row) => formatVolume(row.volumeMl) },
  ]
  return (
    <Table
      caption={t('stock.whereTheLotIs')}
      columns={columns}
      rows={lot.onHand}
      rowKey={(row) => row.shopId}
    />
  )
}
