import { Link } from '@tanstack/react-router'
import type { ShopOverview } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { Table, type Column } from '../../ui/table.tsx'

/** How each shop stands: bays, bonds, stock. Every figure leads to what it counts. */
export function ShopTable({ shops }: { readonly shops: readonly ShopOverview[] }) {
  const now = new Date(useNow(10_000)).toISOString()
  const columns: readonly Column<ShopOverview>[] = [
    {
      head: 'Shop',
      cell: ({ shop }) => (
        <>
          <strong>{shop.name}</strong>{' '}
          <span style={{ color: 'var(--ink-soft)' }}>{formatInstant(now, shop.timeZone, 'clock')} there</span>
        </>
      ),
    },
    {
      head: 'Bays taken',
      number: true,
      cell: ({ shop, bays }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {bays.occupied} of {bays.total}
        </Link>
      ),
    },
    {
      head: 'Curing',
      number: true,
      cell: ({ shop, bonds }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {bonds.curing}
        </Link>
      ),
    },
    {
      head: 'May be moved',
      number: true,
      cell: ({ shop, bonds }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {bonds.mayBeMoved}
        </Link>
      ),
    },
    {
      head: 'Sealed',
      number: true,
      cell: ({ shop, stock }) => (
        <Link to="/stock" search={{ shop: shop.id, state: 'sealed' }}>
          {stock.sealed}
        </Link>
      ),
    },
    {
      head: 'Opened',
      number: true,
      cell: ({ shop, stock }) => (
        <Link to="/stock" search={{ shop: shop.id, state: 'opened' }}>
          {stock.opened}
        </Link>
      ),
    },
    {
      head: 'Open alerts',
      number: true,
      cell: ({ shop, openAlerts }) => (
        <Link to="/alerts" search={{ shop: shop.id }}>
          {openAlerts}
        </Link>
      ),
    },
  ]
  return (
    <Table caption="How each shop stands" columns={columns} rows={shops} rowKey={({ shop }) => shop.id} />
  )
}
