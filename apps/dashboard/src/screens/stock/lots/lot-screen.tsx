import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Button } from '@mantine/core'
import { Link, useParams } from '@tanstack/react-router'
import { Megaphone } from 'lucide-react'
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

export function LotScreen() {
  const { lotId } = useParams({ from: '/in/stock/lots/$lotId' })
  const lot = useQuery(stockQueries.lot(lotId))
  return (
    <Answered query={lot} what="the lot">
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
      title={`Lot ${lot.lotNumber}`}
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
              Recall
            </Button>
          )}
          {mayPrint && <LabelsButton what={{ lotId: lot.id }} />}
        </>
      }
    >
      {lot.hold !== null && (
        <Answer tone="danger" question="May it be used?" word="No: on hold in every shop">
          <p>{lot.hold.reason}</p>
          <p>
            By {lot.hold.by}, {formatInstant(lot.hold.since, 'utc', 'full')} UTC
          </p>
        </Answer>
      )}
      <Section title="On file">
        <Sheet padded>
          <Facts
            facts={[
              [
                'Product',
                <Link key="p" to="/products/$productId" params={{ productId: lot.productId }}>
                  {lot.productName}
                </Link>,
              ],
              ['Printed expiry', formatDate(lot.printedExpiry)],
              ['Printed as', lot.expiryPrecision === 'month' ? 'Month only: its last day counts' : 'Day'],
            ]}
          />
        </Sheet>
      </Section>
      <Section title="Where it is">
        <OnHand lot={lot} />
      </Section>
      <Section title="Cartridges on hand">
        <Answered query={cartridges} what="cartridges">
          {({ pages }) => {
            const items = pages.flatMap((page) => page.items)
            if (items.length === 0) return <Empty title="None on hand any more." />
            return <CartridgeList items={items} query={cartridges} showShop />
          }}
        </Answered>
      </Section>
      <LotStorageSections lotId={lot.id} />
      <Section title="Used in">
        <TraceLinks lotId={lot.id} />
        <Ledger filter={{ lotId: lot.id }} />
      </Section>
    </Page>
  )
}

function OnHand({ lot }: { readonly lot: Lot }) {
  const shops = useShops()
  if (lot.onHand.length === 0) return <Empty title="In no shop any more." />
  const columns: readonly Column<Lot['onHand'][number]>[] = [
    {
      head: 'Shop',
      cell: (row) => shops.find((shop) => shop.id === row.shopId)?.name ?? 'A shop you may not see',
    },
    { head: 'Sealed', number: true, cell: (row) => row.sealed },
    { head: 'Opened', number: true, cell: (row) => row.opened },
    { head: 'Volume', number: true, cell: (row) => `${Math.round(row.volumeMl)} mL` },
  ]
  return <Table caption="Where the lot is" columns={columns} rows={lot.onHand} rowKey={(row) => row.shopId} />
}
