import { formatMoney } from '../../lib/measures.ts'
import { rich } from '../../lib/rich.tsx'
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
import { t } from '../../lib/reader.ts'

export function OrderScreen() {
  const { orderId } = useParams({ from: '/in/ordering/orders/$orderId' })
  const order = useQuery(replenishmentQueries.order(orderId))
  return (
    <Answered query={order} what={t('ordering.theOrder')}>
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
      title={t('ordering.order2', { number: order.number })}
      lede={t('ordering.from', { name: shop?.name ?? '', supplierName: order.supplierName })}
      actions={
        <>
          <Link to="/ordering">{t('ordering.backToOrdering')}</Link>
          <Button
            variant="default"
            leftSection={<FileText size={16} aria-hidden />}
            component="a"
            href={urlOf(ROUTES.getOrderPdf.path, params, undefined)}
            target="_blank"
          >
            {t('ordering.pdf')}
          </Button>
          <Button
            variant="default"
            leftSection={<FileSpreadsheet size={16} aria-hidden />}
            component="a"
            href={urlOf(ROUTES.getOrderCsv.path, params, undefined)}
            download
          >
            {t('ordering.csv')}
          </Button>
          {isOpen && may('handleStock', order.shopId) && (
            <Button variant="default" onClick={open}>
              {order.state === 'draft' ? t('ordering.dropTheDraft') : t('ordering.cancelWhatHasNotCome')}
            </Button>
          )}
          {order.state === 'draft' && may('handleStock', order.shopId) && (
            <Button loading={place.isPending} onClick={() => place.mutate({ params, body: {} })}>
              {t('ordering.itHasBeenSent')}
            </Button>
          )}
        </>
      }
    >
      <ProblemPanel error={place.error} />
      <Facts
        facts={[
          [t('ordering.state'), <OrderStateMark key="state" order={order} zone={zone} />],
          [
            t('ordering.drafted'),
            <Signed key="drafted" at={order.createdAt} by={order.createdBy} zone={zone} />,
          ],
          [t('ordering.sent'), order.placed && <Signed key="sent" {...order.placed} zone={zone} />],
          [t('ordering.closed'), order.closed && <Signed key="closed" {...order.closed} zone={zone} />],
          [t('ordering.inAll'), money(order.totalCents)],
          [t('ordering.note'), order.note || null],
        ]}
      />
      <Section title={t('ordering.cartridges')}>
        <Table
          caption={t('ordering.cartridgesOfTheOrder')}
          columns={[
            { head: 'ordering.product', cell: ({ productName }) => productName },
            { head: 'ordering.ordered', number: true, cell: ({ cartridges }) => cartridges },
            { head: 'ordering.received', number: true, cell: ({ receivedCartridges }) => receivedCartridges },
            { head: 'ordering.each', number: true, cell: ({ unitPriceCents }) => money(unitPriceCents) },
            {
              head: 'ordering.sum',
              number: true,
              cell: ({ cartridges, unitPriceCents }) => money(cartridges * unitPriceCents),
            },
          ]}
          rows={order.lines}
          rowKey={({ productId }) => productId}
        />
        {order.state === 'placed' && (
          <p>
            {rich('ordering.whatComesIsReceived', {
              link: (children) => <Link to="/stock/receive">{children}</Link>,
            })}
          </p>
        )}
      </Section>
      <ReasonDialog
        title={t('ordering.cancelOrder', { number: order.number })}
        opened={cancelling}
        onClose={close}
        reasonLabel={t('ordering.why')}
        confirmLabel={t('ordering.cancelTheOrder')}
        isDanger
        isPending={cancel.isPending}
        error={cancel.error}
        onConfirm={(reason) => cancel.mutate({ params, body: { reason } })}
      />
    </Page>
  )
}

function Signed({ at, by, zone }: { readonly at: string; readonly by: string; readonly zone: string }) {
  return <>{rich('lib.by', { what: <When at={at} zone={zone} style="full" />, who: by })}</>
}
