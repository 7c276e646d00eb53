import { Link } from '@tanstack/react-router'
import type { ReplenishmentLine } from '../../api/types.ts'
import { Section } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import { standsText } from './line-text.ts'

/** What is on the shelf and nobody has said where it comes from. */
export function NothingToOrder({ lines }: { readonly lines: readonly ReplenishmentLine[] }) {
  if (lines.length === 0) return null
  return (
    <Section title="Without a supplier">
      <p>
        Say where these are ordered under <Link to="/admin/ordering">suppliers and prices</Link>, and they
        will be proposed in time.
      </p>
      <Table
        caption="Products without a supplier"
        columns={[
          { head: 'Product', cell: ({ productName }) => productName },
          { head: 'On hand', cell: standsText },
        ]}
        rows={lines}
        rowKey={({ productId }) => productId}
      />
    </Section>
  )
}
