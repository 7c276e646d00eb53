import { formatTemperature } from '@clampclock/quantities'
import { Button, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { FilePlus2 } from 'lucide-react'
import { productQueries } from '../../api/queries/products.ts'
import type { Product, ProductSheet } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { formatDate } from '../../lib/instants.ts'
import { unitOf, useOneShop, zoneOf } from '../../lib/shop-scope.ts'
import { CHEMISTRY } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section, Sheet } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { GtinSection } from './gtin-section.tsx'
import styles from './products.module.css'
import { ProposedSheet } from './sheet/proposed-sheet.tsx'
import { RatePlot } from './rates/rate-plot.tsx'
import { RateTable } from './rates/rate-table.tsx'
import { ReachSection } from './reach-section.tsx'
import { SheetDocuments } from './sheet/sheet-documents.tsx'
import { SheetHistory } from './sheet/sheet-history.tsx'

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
  const { shop } = useOneShop()
  const unit = unitOf(shop)
  const zone = zoneOf(shop)
  const { sheet } = product
  const waiting = sheets.filter(({ approval, rejection }) => approval === null && rejection === null)
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
      {waiting.map((proposed) => (
        <ProposedSheet key={proposed.id} product={product} sheet={proposed} unit={unit} zone={zone} />
      ))}
      {sheet === null ? (
        <Empty title={sheets.length === 0 ? 'No data sheet on file.' : 'No data sheet counts yet.'}>
          No bond can be started with this product until one is recorded, approved and valid.
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
          <Stack gap="md">
            <Facts facts={[...sheetLimits(sheet, unit), ...productLimits(product, unit)]} />
            {sheet !== null && <SheetDocuments productId={product.id} sheet={sheet} />}
          </Stack>
        </Sheet>
      </Section>
      <Section title="Product numbers (GTIN)">
        <GtinSection productId={product.id} />
      </Section>
      <SheetHistory sheets={sheets} countingId={sheet?.id} zone={zone} />
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
