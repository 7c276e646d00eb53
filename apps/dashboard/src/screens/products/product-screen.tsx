import { formatTemperature } from '@clampclock/quantities'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { FilePlus2 } from 'lucide-react'
import { productQueries } from '../../api/queries/products.ts'
import type { Product, ProductSheet } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { formatDate } from '../../lib/instants.ts'
import { unitOf, useOneShop } from '../../lib/shop-scope.ts'
import { CHEMISTRY } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section, Sheet } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { GtinSection } from './gtin-section.tsx'
import styles from './products.module.css'
import { RatePlot } from './rate-plot.tsx'
import { RateTable } from './rate-table.tsx'
import { ReachSection } from './reach-section.tsx'

export function ProductScreen() {
  const { productId } = useParams({ from: '/in/products/$productId' })
  const product = useQuery(productQueries.one(productId))
  return (
    <Answered query={product} what="the product">
      {(data) => <ProductPage product={data} sheets={data.sheets} />}
    </Answered>
  )
}

interface Props {
  readonly product: Product
  readonly sheets: readonly ProductSheet[]
}

function ProductPage({ product, sheets }: Props) {
  const may = useMay()
  const unit = unitOf(useOneShop().shop)
  const { sheet } = product
  return (
    <Page
      title={product.name}
      lede={`${CHEMISTRY[product.chemistry]}, ${product.mixRatio}, ${product.cartridgeForm}`}
      actions={
        may('manageCatalogue', null) && (
          <Button
            leftSection={<FilePlus2 size={16} aria-hidden />}
            renderRoot={(props) => (
              <Link {...props} to="/products/$productId/sheet" params={{ productId: product.id }} />
            )}
          >
            New sheet revision
          </Button>
        )
      }
    >
      {sheet === null ? (
        <Empty title="No data sheet on file.">
          No bond can be started with this product until there is one.
        </Empty>
      ) : (
        <Section title={`How fast it cures, by sheet ${sheet.revision}`}>
          <div className={styles['beside']}>
            <RatePlot sheet={sheet} unit={unit} />
            <RateTable sheet={sheet} unit={unit} />
          </div>
        </Section>
      )}
      <ReachSection product={product} />
      <Section title="Limits">
        <Sheet padded>
          <Facts facts={[...sheetLimits(sheet, unit), ...productLimits(product, unit)]} />
        </Sheet>
      </Section>
      <Section title="Numbers that stand for it">
        <GtinSection productId={product.id} />
      </Section>
      {sheets.length > 1 && (
        <Section title="Revisions of the sheet">
          <ul>
            {sheets.map(({ id, revision, issuedOn }) => (
              <li key={id}>
                {revision}, issued {formatDate(issuedOn)}
              </li>
            ))}
          </ul>
        </Section>
      )}
    </Page>
  )
}

const range = ({ min, max }: { min: number; max: number }, unit: 'C' | 'F') =>
  `${formatTemperature(min, unit, 0)} to ${formatTemperature(max, unit, 0)}`

function sheetLimits(sheet: ProductSheet | null, unit: 'C' | 'F') {
  if (sheet === null) return []
  return [
    ['Metal at application', range(sheet.applicationRangeC, unit)],
    ['Cures at all from', formatTemperature(sheet.lowestCureC, unit, 0)],
    ['No more credit for heat above', formatTemperature(sheet.highestCureC, unit, 0)],
    ['Service range when cured', range(sheet.serviceRangeC, unit)],
    ['Sheet issued', formatDate(sheet.issuedOn)],
  ] as const
}

function productLimits(product: Product, unit: 'C' | 'F') {
  return [
    ['Content', `${product.cartridgeMl} mL`],
    ['Open life', `${product.openLifeDays} days`],
    ['Store at', range(product.storageRangeC, unit)],
    ['Printed expiry assumes', formatTemperature(product.labelStorageC, unit, 0)],
    ['Left in a nozzle', `${product.nozzleHoldUpMl} mL`],
    ['Glass beads', `${product.glassBeadMm} mm`],
    ['E-coat', product.toleratesPrimer ? 'Tolerated' : 'Grind to bright bare metal'],
  ] as const
}
