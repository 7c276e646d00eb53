import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { rich, strong } from '../../../lib/rich.tsx'
import { formatTemperature } from '../../../lib/measures.ts'
import { stockQueries } from '../../../api/queries/stock.ts'
import { useShops } from '../../../api/use-me.ts'
import type { LotStorage } from '../../../api/types.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { zoneOf } from '../../../lib/shop-scope.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { StoragePlot } from './storage-plot.tsx'
import { reader, t } from '../../../lib/reader.ts'

/** How warm it lay, and what that did to it; every hold and how it was disposed of. */
export function LotStorageSections({ lotId }: { readonly lotId: string }) {
  const storage = useQuery(stockQueries.lotStorage(lotId))
  return (
    <Answered query={storage} what={t('stock.itsStorage')}>
      {(data) => (
        <>
          <Section title={t('stock.storageHistory')}>
            <Stored storage={data} />
          </Section>
          {data.holds.length > 0 && (
            <Section title={t('stock.holds')}>
              <Holds holds={data.holds} />
            </Section>
          )}
        </>
      )}
    </Answered>
  )
}

function Stored({ storage }: { readonly storage: LotStorage }) {
  const shops = useShops()
  const shopOf = (id: string) => shops.find((shop) => shop.id === id)
  const unit = reader().temperature
  const degrees = (c: number | null) => (c === null ? t('stock.notMeasured') : formatTemperature(c, unit))
  const { min, max } = storage.storageRangeC
  if (storage.places.length === 0) return <Empty title={t('stock.noStorageLocationOnRecord')} />
  const columns: readonly Column<LotStorage['places'][number]>[] = [
    { head: 'stock.place', cell: (row) => `${shopOf(row.shopId)?.name ?? ''}, ${row.locationName}` },
    { head: 'stock.from', cell: (row) => formatInstant(row.from, zoneOf(shopOf(row.shopId)), 'date') },
    {
      head: 'stock.until',
      cell: (row) =>
        row.until === null
          ? t('stock.stillThere')
          : formatInstant(row.until, zoneOf(shopOf(row.shopId)), 'date'),
    },
    { head: 'stock.cartridges', number: true, cell: (row) => row.cartridges },
    {
      head: 'stock.coldest',
      number: true,
      cell: (row) => (
        <Extreme isOut={row.coldestC !== null && row.coldestC < min}>{degrees(row.coldestC)}</Extreme>
      ),
    },
    {
      head: 'stock.warmest',
      number: true,
      cell: (row) => (
        <Extreme isOut={row.warmestC !== null && row.warmestC > max}>{degrees(row.warmestC)}</Extreme>
      ),
    },
    { head: 'stock.meanKinetic', number: true, cell: (row) => degrees(row.meanKineticC) },
  ]
  const { warmestLoss } = storage
  return (
    <>
      <p>
        {rich('stock.meanKineticOfTheLot', {
          mean: degrees(storage.meanKineticC),
          label: degrees(storage.labelStorageC),
          min: degrees(min),
          max: degrees(max),
          b: strong,
        })}{' '}
        {warmestLoss !== null &&
          warmestLoss.days * 24 >= 1 &&
          rich('stock.atMost', {
            reason: warmestLoss.reason,
            cartridge: (
              <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: warmestLoss.cartridgeId }}>
                {warmestLoss.code}
              </Link>
            ),
          })}
      </p>
      <StoragePlot storage={storage} unit={unit} />
      <Table
        caption={t('stock.whereItLay')}
        columns={columns}
        rows={storage.places}
        rowKey={({ locationId }) => locationId}
      />
    </>
  )
}

function Extreme({ isOut, children }: { readonly isOut: boolean; readonly children: string }) {
  return isOut ? <Mark tone="danger">{children}</Mark> : children
}

const HOLD = {
  get held() {
    return t('stock.putOnHold')
  },
  get ended() {
    return t('stock.usableAgain')
  },
  get scrapped() {
    return t('stock.scrapped')
  },
} as const

const HOLD_COLUMNS: readonly Column<LotStorage['holds'][number]>[] = [
  { head: 'stock.when', cell: (row) => `${formatInstant(row.at, 'utc', 'full')} UTC` },
  { head: 'stock.what', cell: (row) => HOLD[row.kind] },
  { head: 'stock.who', cell: (row) => row.by },
  { head: 'stock.why', cell: (row) => row.reason },
]

function Holds({ holds }: { readonly holds: LotStorage['holds'] }) {
  return (
    <Table
      caption={t('stock.holdsOfTheLot')}
      columns={HOLD_COLUMNS}
      rows={holds}
      rowKey={({ at, kind }) => `${at} ${kind}`}
    />
  )
}
