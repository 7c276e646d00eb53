import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { Plus } from 'lucide-react'
import { formatMinutes, formatTemperature, formatRecordedVolume } from '../../lib/measures.ts'
import { productQueries } from '../../api/queries/products.ts'
import type { Product } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { CHEMISTRY } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Page } from '../../ui/page.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { reader, t } from '../../lib/reader.ts'

export function ProductsScreen() {
  const products = useQuery(productQueries.all())
  const may = useMay()
  const unit = reader().temperature
  const columns: readonly Column<Product>[] = [
    {
      head: 'products.product',
      cell: (product) => (
        <Link to="/products/$productId" params={{ productId: product.id }}>
          {product.name}
        </Link>
      ),
    },
    { head: 'products.chemistry', cell: ({ chemistry }) => CHEMISTRY[chemistry] },
    { head: 'products.mix', cell: ({ mixRatio }) => mixRatio },
    {
      head: 'products.cartridge',
      cell: ({ cartridgeForm, cartridgeMl }) => `${cartridgeForm}, ${formatRecordedVolume(cartridgeMl)}`,
    },
    {
      head: 'products.openLife',
      number: true,
      cell: ({ openLifeDays }) => t('products.days', { openLifeDays }),
    },
    { head: 'products.handlingStrengthPublished', cell: ({ sheet }) => publishedAt(sheet, unit) },
    {
      head: 'products.sheet',
      cell: ({ sheet, retiredAt, waitingSheets }) =>
        retiredAt !== null ? (
          <Mark tone="quiet">{t('products.retired')}</Mark>
        ) : waitingSheets > 0 ? (
          <Mark tone="warning">
            {t('products.oneWaitsForApproval', { revision: sheet?.revision ?? t('products.none') })}
          </Mark>
        ) : sheet === null ? (
          <Mark tone="warning">{t('products.noneNoBond')}</Mark>
        ) : (
          sheet.revision
        ),
    },
  ]
  return (
    <Page
      title={t('products.products')}
      lede={t('products.whatTheChainBondsWithByTheDataSheet')}
      actions={
        may('manageCatalogue', null) && (
          <Button
            leftSection={<Plus size={16} aria-hidden />}
            renderRoot={(props) => <Link {...props} to="/products/new" />}
          >
            {t('products.addProduct')}
          </Button>
        )
      }
    >
      <Answered query={products} what={t('products.products2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('products.noProductsYet')}>
              {t('products.addOneWithTheFiguresOfItsDataSheet')}
            </Empty>
          ) : (
            <Table caption={t('products.products')} columns={columns} rows={items} rowKey={({ id }) => id} />
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
  return t('products.at', {
    time: formatMinutes(point.handlingTimeMinutes),
    temperature: formatTemperature(point.temperatureC, unit, 0),
  })
}
