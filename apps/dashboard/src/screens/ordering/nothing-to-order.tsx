import { Link } from '@tanstack/react-router'
import { rich } from '../../lib/rich.tsx'
import type { ReplenishmentLine } from '../../api/types.ts'
import { Section } from '../../ui/page.tsx'
import { Table } from '../../ui/table.tsx'
import { standsText } from './line-text.ts'
import { t } from '../../lib/reader.ts'

/** What is on the shelf and nobody has said where it comes from. */
export function NothingToOrder({ lines }: { readonly lines: readonly ReplenishmentLine[] }) {
  if (lines.length === 0) return null
  return (
    <Section title={t('ordering.withoutASupplier')}>
      <p>
        {rich('ordering.sayWhereTheseAreOrdered', {
          link: (children) => <Link to="/admin/ordering">{children}</Link>,
        })}
      </p>
      <Table
        caption={t('ordering.productsWithoutASupplier')}
        columns={[
          { head: 'ordering.product', cell: ({ productName }) => productName },
          { head: 'ordering.onHand', cell: standsText },
        ]}
        rows={lines}
        rowKey={({ productId }) => productId}
      />
    </Section>
  )
}
