import { ROUTES } from '@clampclock/contracts'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import { productQueries } from '../../api/queries/products.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { Cartridge, Product, Shop } from '../../api/types.ts'
import { ScanField } from '../../features/scan/scan-field.tsx'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Mark } from '../../ui/mark.tsx'
import { Page, Sheet } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { filledBy, NEXT_BOX, type Receipt, type ReceiveValues, type ScannedProduct } from './receipt.ts'
import styles from './receive.module.css'
import { ReceiveForm } from './receive-form.tsx'
import { Received } from './received.tsx'

export function ReceiveScreen() {
  const { shop, shops } = useOneShop()
  const may = useMay()
  const products = useQuery(productQueries.all())
  const mine = shops.filter((candidate) => may('handleStock', candidate.id))
  const into = mine.find((candidate) => candidate.id === shop?.id) ?? mine[0]
  return (
    <Page title="Receive cartridges" narrow actions={<Link to="/stock">Back to stock</Link>}>
      {into === undefined ? (
        <Empty title="You may not receive stock in any shop." />
      ) : (
        <Answered query={products} what="products">
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
  const form = useForm<ReceiveValues>({
    initialValues: { ...NEXT_BOX, shopId: firstShop.id, precision: 'day', locationId: '', deliveryNote: '' },
  })
  const [scanned, setScanned] = useState<ScannedProduct>()
  const [known, setKnown] = useState<Cartridge>()
  const [receipt, setReceipt] = useState<Receipt>()
  const read = useAction(ROUTES.readScan, {
    topics: [],
    onDone: (answer) => {
      setKnown(answer.kind === 'cartridge' ? answer.cartridge : undefined)
      if (answer.kind === 'product') {
        form.setValues(filledBy(form.getValues(), answer))
        setScanned(answer)
        setReceipt(undefined)
      }
    },
  })
  const onScan = (text: string) =>
    read.mutate({ params: { shopId: form.getValues().shopId }, body: { text } })
  const first = useRef(firstScan)
  useEffect(() => {
    if (first.current === undefined) return
    onScan(first.current)
    first.current = undefined
  })
  return (
    <>
      {receipt !== undefined && <Received receipt={receipt} />}
      <div className={styles['scan']}>
        <Sheet padded>
          <ScanField
            label="Scan the cartridge or carton"
            description="With a hand scanner, the camera, or typed as printed; Enter ends it."
            isPending={read.isPending}
            error={read.error?.message}
            onScan={onScan}
            focusKey={`${read.submittedAt} ${receipt?.receiptId}`}
          />
          {known !== undefined && (
            <p style={{ marginBottom: 0 }}>
              <Mark tone="warning">
                <>
                  That is the label of a cartridge on file:{' '}
                  <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: known.id }}>
                    {known.code}
                  </Link>
                  , {known.productName}. To receive more, scan the maker’s label.
                </>
              </Mark>
            </p>
          )}
        </Sheet>
      </div>
      <ReceiveForm
        form={form}
        shops={shops}
        products={products}
        scanned={scanned}
        onReceived={(done) => {
          setReceipt(done)
          setScanned(undefined)
        }}
      />
    </>
  )
}
