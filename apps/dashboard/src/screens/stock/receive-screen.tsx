import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { productQueries } from '../../api/queries/products.ts'
import { useMay } from '../../api/use-me.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { Page } from '../../ui/page.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import type { Receipt } from './receipt.ts'
import { ReceiveForm } from './receive-form.tsx'
import { Received } from './received.tsx'

export function ReceiveScreen() {
  const { shop, shops } = useOneShop()
  const may = useMay()
  const products = useQuery(productQueries.all())
  const [receipt, setReceipt] = useState<Receipt>()
  const mine = shops.filter((candidate) => may('handleStock', candidate.id))
  const into = mine.find((candidate) => candidate.id === shop?.id) ?? mine[0]
  return (
    <Page title="Receive cartridges" narrow actions={<Link to="/stock">Back to stock</Link>}>
      {receipt !== undefined && <Received receipt={receipt} />}
      {into === undefined ? (
        <Empty title="You may not receive stock in any shop." />
      ) : (
        <Answered query={products} what="products">
          {({ items }) => (
            <ReceiveForm shops={mine} firstShop={into} products={items} onReceived={setReceipt} />
          )}
        </Answered>
      )}
    </Page>
  )
}
