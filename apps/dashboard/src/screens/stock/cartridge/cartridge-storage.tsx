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

interface Props {
  readonly cartridgeId: string
  /** Of the shop where it is. */
  readonly zone: string
}

/** Where it lay, how much of that was measured, and what was decided when it lay too warm or too cold. */
export function CartridgeStorageSections({ cartridgeId, zone }: Props) {
  const storage = useQuery(stockQueries.cartridgeStorage(cartridgeId))
  return (
    <Answered query={storage} what="its storage">
      {(data) => (
        <>
          <Section title="Storage history">
            <p>{measured(data.measuredShare)}</p>
            <Stays stays={data.stays} />
          </Section>
          {data.quarantines.length > 0 && (
            <Section title="Quarantine">
              <Table
                caption="Quarantines and what was decided"
                columns={[
                  { head: 'Since', cell: ({ since }) => formatInstant(since, zone, 'full') },
                  { head: 'Why', cell: ({ reason }) => reason },
                  { head: 'Decision', cell: ({ decision }) => decided(decision, zone) },
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
  if (stays.length === 0) return <Empty title="No storage location on record." />
  const columns: readonly Column<CartridgeStorage['stays'][number]>[] = [
    { head: 'Place', cell: (row) => `${shopOf(row.shopId)?.name ?? ''}, ${row.locationName}` },
    { head: 'From', cell: (row) => formatInstant(row.from, zoneOf(shopOf(row.shopId)), 'full') },
    {
      head: 'Until',
      cell: (row) =>
        row.until === null ? 'still there' : formatInstant(row.until, zoneOf(shopOf(row.shopId)), 'full'),
    },
    {
      head: 'Measured',
      number: true,
      cell: ({ measuredShare }) =>
        measuredShare === null ? 'Not measured' : `${percentOf(measuredShare)} %`,
    },
  ]
  return (
    <Table
      caption="Where the cartridge lay"
      columns={columns}
      rows={stays}
      rowKey={({ locationId, from }) => `${locationId} ${from}`}
    />
  )
}

function measured(share: number | null): string {
  if (share === null) return 'Not measured: no thermometer says how warm or cold it lay.'
  return `Measured for ${percentOf(share)} % of its life here. Of the rest nobody knows how warm or cold it lay.`
}

function decided(decision: CartridgeStorage['quarantines'][number]['decision'], zone: string): string {
  if (decision === null) return 'Not yet'
  const word = decision.kind === 'use' ? 'Use it' : 'Discard it'
  return `${word}: ${decision.reason} (${decision.by}, ${formatInstant(decision.at, zone, 'full')})`
}
