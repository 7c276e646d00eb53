import { useQuery } from '@tanstack/react-query'
import { stockQueries } from '../../../api/queries/stock.ts'
import type { CartridgeStorage } from '../../../api/types.ts'
import { useShops } from '../../../api/use-me.ts'
import { formatInstant } from '../../../lib/instants.ts'
import { zoneOf } from '../../../lib/shop-scope.ts'
import { Section } from '../../../ui/page.tsx'
import { percentOf } from '../../../ui/answers/percent.ts'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly cartridgeId: string
  /** Of the shop where it is. */
  readonly zone: string
}

/** Where it lay, how much of that was measured, and what was decided when it lay too warm or too cold. */
export function CartridgeStorageSections({ cartridgeId, zone }: Props) {
  const storage = useQuery(stockQueries.cartridgeStorage(cartridgeId))
  return (
    <Answered query={storage} what={t('stock.itsStorage')}>
      {(data) => (
        <>
          <Section title={t('stock.storageHistory')}>
            <p>{measured(data.measuredShare)}</p>
            <Stays stays={data.stays} />
          </Section>
          {data.quarantines.length > 0 && (
            <Section title={t('stock.quarantine')}>
              <Table
                caption={t('stock.quarantinesAndWhatWasDecided')}
                columns={[
                  { head: 'stock.since', cell: ({ since }) => formatInstant(since, zone, 'full') },
                  { head: 'stock.why', cell: ({ reason }) => reason },
                  { head: 'stock.decision', cell: ({ decision }) => decided(decision, zone) },
                ]}
                rows={data.quarantines}
                rowKey={({ since, reason }) => `${since} ${reason}`}
              />
            </Section>
          )}
        </>
      )}
    </Answered>
  )
}

function Stays({ stays }: Pick<CartridgeStorage, 'stays'>) {
  const shops = useShops()
  const shopOf = (id: string) => shops.find((shop) => shop.id === id)
  if (stays.length === 0) return <Empty title={t('stock.noStorageLocationOnRecord')} />
  const columns: readonly Column<CartridgeStorage['stays'][number]>[] = [
    { head: 'stock.place', cell: (row) => `${shopOf(row.shopId)?.name ?? ''}, ${row.locationName}` },
    { head: 'stock.from', cell: (row) => formatInstant(row.from, zoneOf(shopOf(row.shopId)), 'full') },
    {
      head: 'stock.until',
      cell: (row) =>
        row.until === null
          ? t('stock.stillThere')
          : formatInstant(row.until, zoneOf(shopOf(row.shopId)), 'full'),
    },
    {
      head: 'stock.measured',
      number: true,
      cell: ({ measuredShare }) =>
        measuredShare === null ? t('stock.notMeasured') : `${percentOf(measuredShare)} %`,
    },
  ]
  return (
    <Table
      caption={t('stock.whereTheCartridgeLay')}
      columns={columns}
      rows={stays}
      rowKey={({ locationId, from }) => `${locationId} ${from}`}
    />
  )
}

function measured(share: number | null): string {
  if (share === null) return t('stock.notMeasuredNoThermometerSaysHowWarm')
  return t('stock.measuredForOfItsLifeHereOfTheRest', { share: percentOf(share) })
}

function decided(decision: CartridgeStorage['quarantines'][number]['decision'], zone: string): string {
  if (decision === null) return t('stock.notYet')
  const word = decision.kind === 'use' ? t('stock.useIt') : t('stock.discardIt')
  return `${word}: ${decision.reason} (${decision.by}, ${formatInstant(decision.at, zone, 'full')})`
}
