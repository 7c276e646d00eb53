import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useSearch } from '@tanstack/react-router'
import { useEffect } from 'react'
import { productQueries } from '../../../api/queries/products.ts'
import { useMay } from '../../../api/use-me.ts'
import type { Product, Shop } from '../../../api/types.ts'
import { ScanField } from '../../../features/scan/scan-field.tsx'
import { ScanQueue } from '../../../features/scan/scan-queue.tsx'
import { useOneShop } from '../../../lib/shop-scope.ts'
import { Page, Sheet } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { emptyDelivery, isBlank } from './delivery.ts'
import styles from './receive.module.css'
import { ReceiveForm } from './receive-form.tsx'
import { Received } from './received.tsx'
import { useDelivery } from './use-delivery.ts'
import { t } from '../../../lib/reader.ts'

export function ReceiveScreen() {
  const { shop, shops } = useOneShop()
  const may = useMay()
  const products = useQuery(productQueries.all())
  const mine = shops.filter((candidate) => may('handleStock', candidate.id))
  const into = mine.find((candidate) => candidate.id === shop?.id) ?? mine[0]
  return (
    <Page
      title={t('stock.receiveCartridges')}
      narrow
      actions={<Link to="/stock">{t('stock.backToStock')}</Link>}
    >
      {into === undefined ? (
        <Empty title={t('stock.youMayNotReceiveStockInAnyShop')} />
      ) : (
        <Answered query={products} what={t('stock.products')}>
          {({ items }) => <Receiving shops={mine} firstShop={into} products={items} />}
        </Answered>
      )}
    </Page>
  )
}

interface Props {
  readonly shops: readonly Shop[]
  readonly firstShop: Shop
  readonly products: readonly Product[]
}

function Receiving({ shops, firstShop, products }: Props) {
  const { scan: firstScan } = useSearch({ from: '/in/stock/receive' })
  const navigate = useNavigate()
  const receiving = useDelivery(firstShop.id)
  const { delivery, scans, change } = receiving
  useEffect(() => {
    // What is being taken in stays in its shop; otherwise the shop is the one that the screen is of.
    change((old) =>
      old.lines.every(isBlank) && old.shopId !== firstShop.id
        ? { ...emptyDelivery(firstShop.id), receipts: old.receipts }
        : old,
    )
  }, [change, firstShop.id])
  useEffect(() => {
    if (firstScan === undefined) return
    scans.add({ shopId: firstShop.id, text: firstScan })
    // Out of the address: a reload is not another scan.
    void navigate({ to: '.', search: (old) => ({ ...old, scan: undefined }), replace: true })
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- once for each scan that the address brings
  }, [firstScan])
  return (
    <>
      {delivery.receipts.map((receipt) => (
        <Received key={receipt.receiptId} receipt={receipt} />
      ))}
      <div className={styles['scan']}>
        <Sheet padded>
          <ScanField
            label={t('stock.scanTheCartridgeOrCarton')}
            description={t('stock.withAHandScannerTheCameraOrTypedAs')}
            isPending={scans.items.some(({ state }) => state === 'sending')}
            onScan={(text) => scans.add({ shopId: delivery.shopId, text })}
            focusKey={`${scans.sent + scans.items.length} ${delivery.receipts[0]?.receiptId}`}
          />
          <ScanQueue items={scans.items} sent={scans.sent} onDismiss={scans.dismiss} />
        </Sheet>
      </div>
      <ReceiveForm receiving={receiving} shops={shops} products={products} />
    </>
  )
}
