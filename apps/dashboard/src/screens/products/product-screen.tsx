import { Button, Stack } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { FilePlus2 } from 'lucide-react'
import { formatTemperature, formatLength, formatRecordedVolume } from '../../lib/measures.ts'
import { productQueries } from '../../api/queries/products.ts'
import type { Product, ProductSheet } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { formatDate } from '../../lib/instants.ts'
import { useOneShop, zoneOf } from '../../lib/shop-scope.ts'
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
import { reader, t } from '../../lib/reader.ts'

export function ProductScreen() {
  const { productId } = useParams({ from: '/in/products/$productId' })
  const product = useQuery(productQueries.one(productId))
  return (
    <Answered query={product} what={t('products.theProduct')}>
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
  const unit = reader().temperature
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
            {t('products.newSheetRevision')}
          </Button>
        )
      }
    >
      {waiting.map((proposed) => (
        <ProposedSheet key={proposed.id} product={product} sheet={proposed} unit={unit} zone={zone} />
      ))}
      {sheet === null ? (
        <Empty
          title={sheets.length === 0 ? t('products.noDataSheetOnFile') : t('products.noDataSheetCountsYet')}
        >
          {t('products.noBondCanBeStartedWithThisProduct')}
        </Empty>
      ) : (
        <Section title={t('products.howFastItCuresBySheet', { revision: sheet.revision })}>
          <div className={styles['beside']}>
            <RatePlot sheet={sheet} unit={unit} />
            <RateTable sheet={sheet} unit={unit} />
          </div>
        </Section>
      )}
      <ReachSection product={product} />
      <Section title={t('products.limits')}>
        <Sheet padded>
          <Stack gap="md">
            <Facts facts={[...sheetLimits(sheet, unit), ...productLimits(product, unit)]} />
            {sheet !== null && <SheetDocuments productId={product.id} sheet={sheet} />}
          </Stack>
        </Sheet>
      </Section>
      <Section title={t('products.productNumbersGtin')}>
        <GtinSection productId={product.id} />
      </Section>
      <SheetHistory sheets={sheets} countingId={sheet?.id} zone={zone} />
    </Page>
  )
}

const range = ({ min, max }: { min: number; max: number }, unit: 'C' | 'F') =>
  t('lib.range', { from: formatTemperature(min, unit, 0), until: formatTemperature(max, unit, 0) })

function sheetLimits(sheet: ProductSheet | null, unit: 'C' | 'F') {
  if (sheet === null) return []
  return [
    [t('products.metalAtApplication'), range(sheet.applicationRangeC, unit)],
    [t('products.curesAtAllFrom'), formatTemperature(sheet.lowestCureC, unit, 0)],
    [t('products.noMoreCreditForHeatAbove'), formatTemperature(sheet.highestCureC, unit, 0)],
    [t('products.serviceRangeWhenCured'), range(sheet.serviceRangeC, unit)],
    [t('products.sheetIssued'), formatDate(sheet.issuedOn)],
  ] as const
}

function productLimits(product: Product, unit: 'C' | 'F') {
  return [
    [t('products.content'), formatRecordedVolume(product.cartridgeMl)],
    [t('products.openLife'), t('products.days', { openLifeDays: product.openLifeDays }), 'openLife'],
    [t('products.storeAt'), range(product.storageRangeC, unit)],
    [t('products.printedExpiryAssumes'), formatTemperature(product.labelStorageC, unit, 0)],
    [t('products.leftInANozzle'), formatRecordedVolume(product.nozzleHoldUpMl)],
    [t('products.glassBeads'), formatLength(product.glassBeadMm)],
    [
      t('products.eCoat'),
      product.toleratesPrimer ? t('products.tolerated') : t('products.grindToBrightBareMetal'),
    ],
  ] as const
}
