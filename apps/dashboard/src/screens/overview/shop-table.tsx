import { Link } from '@tanstack/react-router'
import type { ShopOverview } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useNow } from '../../lib/use-now.ts'
import { Table, type Column } from '../../ui/table.tsx'
import { t } from '../../lib/reader.ts'

/** How each shop stands: bays, bonds, stock. Every figure leads to what it counts. */
export function ShopTable({ shops }: { readonly shops: readonly ShopOverview[] }) {
  const now = new Date(useNow(10_000)).toISOString()
  const columns: readonly Column<ShopOverview>[] = [
    {
      head: 'overview.shop',
      cell: ({ shop }) => (
        <>
          <strong>{shop.name}</strong>{' '}
          <span style={{ color: 'var(--ink-soft)' }}>
            {t('overview.there', { now: formatInstant(now, shop.timeZone, 'clock') })}
          </span>
        </>
      ),
    },
    {
      head: 'overview.baysTaken',
      number: true,
      cell: ({ shop, bays }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {t('overview.of', { occupied: bays.occupied, total: bays.total })}
        </Link>
      ),
    },
    {
      head: 'overview.curing',
      number: true,
      cell: ({ shop, bonds }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {bonds.curing}
        </Link>
      ),
    },
    {
      head: 'overview.mayBeMoved',
      number: true,
      cell: ({ shop, bonds }) => (
        <Link to="/bays" search={{ shop: shop.id }}>
          {bonds.mayBeMoved}
        </Link>
      ),
    },
    {
      head: 'overview.sealed',
      number: true,
      cell: ({ shop, stock }) => (
        <Link to="/stock" search={{ shop: shop.id, state: 'sealed' }}>
          {stock.sealed}
        </Link>
      ),
    },
    {
      head: 'overview.opened',
      number: true,
      cell: ({ shop, stock }) => (
        <Link to="/stock" search={{ shop: shop.id, state: 'opened' }}>
          {stock.opened}
        </Link>
      ),
    },
    {
      head: 'overview.openAlerts',
      number: true,
      cell: ({ shop, openAlerts }) => (
        <Link to="/alerts" search={{ shop: shop.id }}>
          {openAlerts}
        </Link>
      ),
    },
  ]
  return (
    <Table
      caption={t('overview.howEachShopStands')}
      columns={columns}
      rows={shops}
      rowKey={({ shop }) => shop.id}
    />
  )
}
