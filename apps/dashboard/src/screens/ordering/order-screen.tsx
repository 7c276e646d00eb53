import { formatMoney } from '@clampclock/quantities'
import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { Link, useParams } from '@tanstack/react-router'
import { FileSpreadsheet, FileText } from 'lucide-react'
import { replenishmentQueries } from '../../api/queries/replenishment.ts'
import type { PurchaseOrder } from '../../api/types.ts'
import { urlOf } from '../../api/url.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { Table } from '../../ui/table.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { When } from '../../ui/when.tsx'
import { OrderStateMark } from './order-state.tsx'

export function OrderScreen() {
  const { orderId } = useParams({ from: '/in/ordering/orders/$orderId' })
  const order = useQuery(replenishmentQueries.order(orderId))
  return (
    <Answered query={order} what="the order">
      {(found) => <OrderPage order={found} />}
    </Answered>
  )
}

function OrderPage({ order }: { readonly order: PurchaseOrder }) {
  const shop = useShop(order.shopId)
  const zone = zoneOf(shop)
  const may = useMay()
  const [cancelling, { open, close }] = useDisclosure()
  const params = { orderId: order.id }
  const place = useAction(ROUTES.placeOrder, { topics: ['stock'] })
  const cancel = useAction(ROUTES.cancelOrder, { topics: ['stock'], onDone: close })
  const money = (cents: number) => formatMoney(cents, order.currency)
  const isOpen = order.state === 'draft' || order.state === 'placed'
  return (
    <Page
      title={`Order ${order.number}`}
      lede={`${shop?.name ?? ''}, from ${order.supplierName}`}
      actions={
        <>
          <Link to="/ordering">Back to ordering</Link>
          <Button
            variant="default"
            leftSection={<FileText size={16} aria-hidden />}
            component="a"
            href={urlOf(ROUTES.getOrderPdf.path, params, undefined)}
            target="_blank"
          >
            PDF
          </Button>
          <Button
            variant="default"
            leftSection={<FileSpreadsheet size={16} aria-hidden />}
            component="a"
            href={urlOf(ROUTES.getOrderCsv.path, params, undefined)}
            download
          >
            CSV
          </Button>
          {isOpen && may('handleStock', order.shopId) && (
            <Button variant="default" onClick={open}>
              {order.state === 'draft' ? 'Drop the draft' : 'Cancel what has not come'}
            </Button>
          )}
          {order.state === 'draft' && may('handleStock', order.shopId) && (
            <Button loading={place.isPending} onClick={() => place.mutate({ params, body: {} })}>
              It has been sent
            </Button>
          )}
        </>
      }
    >
      <ProblemPanel error={place.error} />
      <Facts
        facts={[
          ['State', <OrderStateMark key="state" order={order} zone={zone} />],
          ['Drafted', <Signed key="drafted" at={order.createdAt} by={order.createdBy} zone={zone} />],
          ['Sent', order.placed && <Signed key="sent" {...order.placed} zone={zone} />],
          ['Closed', order.closed && <Signed key="closed" {...order.closed} zone={zone} />],
          ['In all', money(order.totalCents)],
          ['Note', order.note || null],
        ]}
      />
      <Section title="Cartridges">
        <Table
          caption="Cartridges of the order"
          columns={[
            { head: 'Product', cell: ({ productName }) => productName },
            { head: 'Ordered', number: true, cell: ({ cartridges }) => cartridges },
            { head: 'Received', number: true, cell: ({ receivedCartridges }) => receivedCartridges },
            { head: 'Each', number: true, cell: ({ unitPriceCents }) => money(unitPriceCents) },
            {
              head: 'Sum',
              number: true,
              cell: ({ cartridges, unitPriceCents }) => money(cartridges * unitPriceCents),
            },
          ]}
          rows={order.lines}
          rowKey={({ productId }) => productId}
        />
        {order.state === 'placed' && (
          <p>
            What comes is <Link to="/stock/receive">received</Link> as ever: it is counted against the oldest
            order of its product.
          </p>
        )}
      </Section>
      <ReasonDialog
        title={`Cancel order ${order.number}`}
        opened={cancelling}
        onClose={close}
        reasonLabel="Why?"
        confirmLabel="Cancel the order"
        isDanger
        isPending={cancel.isPending}
        error={cancel.error}
        onConfirm={(reason) => cancel.mutate({ params, body: { reason } })}
      />
    </Page>
  )
}

function Signed({ at, by, zone }: { readonly at: string; readonly by: string; readonly zone: string }) {
  return (
    <>
      <When at={at} zone={zone} style="full" /> by {by}
    </>
  )
}
