import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { Plus } from 'lucide-react'
import { productQueries } from '../../api/queries/products.ts'
import type { Product } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { unitOf, useOneShop } from '../../lib/shop-scope.ts'
import { CHEMISTRY } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Page } from '../../ui/page.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'

export function ProductsScreen() {
  const products = useQuery(productQueries.all())
  const may = useMay()
  const unit = unitOf(useOneShop().shop)
  const columns: readonly Column<Product>[] = [
    {
      head: 'Product',
      cell: (product) => (
        <Link to="/products/$productId" params={{ productId: product.id }}>
          {product.name}
        </Link>
      ),
    },
    { head: 'Chemistry', cell: ({ chemistry }) => CHEMISTRY[chemistry] },
    { head: 'Mix', cell: ({ mixRatio }) => mixRatio },
    { head: 'Cartridge', cell: ({ cartridgeForm, cartridgeMl }) => `${cartridgeForm}, ${cartridgeMl} mL` },
    { head: 'Open life', number: true, cell: ({ openLifeDays }) => `${openLifeDays} d` },
    { head: 'Handling strength, published', cell: ({ sheet }) => publishedAt(sheet, unit) },
    {
      head: 'Sheet',
      cell: ({ sheet, retiredAt, waitingSheets }) =>
        retiredAt !== null ? (
          <Mark tone="quiet">Retired</Mark>
        ) : waitingSheets > 0 ? (
          <Mark tone="warning">{`${sheet?.revision ?? 'None'}; one waits for approval`}</Mark>
        ) : sheet === null ? (
          <Mark tone="warning">None: no bond</Mark>
        ) : (
          sheet.revision
        ),
    },
  ]
  return (
    <Page
      title="Products"
      lede="What the chain bonds with, by the data sheet that counts"
      actions={
        may('manageCatalogue', null) && (
          <Button
            leftSection={<Plus size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/products/new" />}
          >
            Add product
          </Button>
        )
      }
    >
      <Answered query={products} what="products">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No products yet.">Add one with the figures of its data sheet.</Empty>
          ) : (
            <Table caption="Products" columns={columns} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
    </Page>
  )
}

/** The published point nearest to an ordinary shop, 23 degC: one figure to compare products by. */
function publishedAt(sheet: Product['sheet'], unit: 'C' | 'F'): string {
  const [point] = [...(sheet?.points ?? [])].sort(
    (a, b) => Math.abs(a.temperatureC - 23) - Math.abs(b.temperatureC - 23),
  )
  if (point === undefined) return ''
  return `${formatMinutes(point.handlingTimeMinutes)} at ${formatTemperature(point.temperatureC, unit, 0)}`
}
