import { rich } from '../../../lib/rich.tsx'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group, NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { PackageCheck } from 'lucide-react'
import { useState } from 'react'
import { shopQueries } from '../../../api/queries/shops.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { Shipment } from '../../../api/types.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section, Sheet } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { When } from '../../../ui/when.tsx'
import { t } from '../../../lib/reader.ts'

type Line = Shipment['lines'][number]

interface Props {
  readonly shipment: Shipment
  /** All that was on its way has come, as the service tells it. */
  readonly onArrived: (shipment: Shipment) => void
}

/** One shipment: what is in it, and, for those who may, that it has arrived or was lost. */
export function ShipmentCard({ shipment, onArrived }: Props) {
  const from = useShop(shipment.fromShopId)
  const to = useShop(shipment.toShopId)
  const may = useMay()
  const [losing, setLosing] = useState<Line>()
  const mayArrive = may('handleStock', shipment.toShopId)
  const mayLose = mayArrive || may('handleStock', shipment.fromShopId)
  const lose = useAction(ROUTES.loseShipment, {
    topics: ['stock', 'alerts'],
    onDone: () => setLosing(undefined),
  })
  const arrive = useAction(ROUTES.arriveShipment, { topics: ['stock', 'alerts'] })
  const columns: readonly Column<Line>[] = [
    {
      head: 'stock.cartridge2',
      cell: (line) => (
        <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: line.cartridgeId }}>
          {line.code}
        </Link>
      ),
    },
    {
      head: 'stock.productAndLot',
      cell: (line) => t('stock.lot3', { productName: line.productName, lotNumber: line.lotNumber }),
    },
    {
      head: 'stock.howItWent',
      cell: (line) =>
        line.outcome === null ? (
          <Mark tone="quiet">{t('stock.onItsWay')}</Mark>
        ) : (
          <Mark tone={line.outcome === 'arrived' ? 'ready' : 'warning'}>
            <>
              {line.outcome === 'arrived' ? t('stock.arrived') : t('stock.lost')}
              {line.settledAt !== null && (
                <>
                  {', '}
                  {rich('lib.by', {
                    what: <When at={line.settledAt} zone={zoneOf(to)} />,
                    who: line.settledBy ?? '',
                  })}
                </>
              )}
            </>
          </Mark>
        ),
    },
    {
      head: 'stock.change',
      cell: (line) =>
        line.outcome === null && mayLose ? (
          <Button
            size="xs"
            variant="default"
            aria-label={t('stock.wasLost', { code: line.code })}
            onClick={() => setLosing(line)}
          >
            {t('stock.lost')}
          </Button>
        ) : line.outcome === 'lost' && mayArrive ? (
          <Button
            size="xs"
            variant="default"
            aria-label={t('stock.hasTurnedUp', { code: line.code })}
            onClick={() =>
              arrive.mutate({
                params: { shipmentId: shipment.id },
                body: { cartridgeIds: [line.cartridgeId], reason: t('stock.turnedUp') },
              })
            }
          >
            {t('stock.turnedUp')}
          </Button>
        ) : null,
    },
  ]
  return (
    <Section
      title={t('lib.range', {
        from: from?.name ?? t('stock.anotherShop'),
        until: to?.name ?? t('stock.anotherShop2'),
      })}
    >
      <Sheet padded>
        <p style={{ marginTop: 0 }}>
          {rich('stock.sentBy', {
            at: <When at={shipment.sentAt} zone={zoneOf(from)} style="full" />,
            by: shipment.sentBy,
            reason: shipment.reason,
          })}
        </p>
        {shipment.warnings.map((warning) => (
          <p key={warning}>
            <Mark tone="warning">{warning}</Mark>
          </p>
        ))}
        <Table
          caption={t('stock.cartridgesOfTheShipment')}
          columns={columns}
          rows={shipment.lines}
          rowKey={({ cartridgeId }) => cartridgeId}
        />
        <ProblemPanel error={arrive.error} />
        {shipment.onTheWay > 0 && mayArrive && <Arrival shipment={shipment} onArrived={onArrived} />}
        {losing !== undefined && (
          <ReasonDialog
            opened
            title={t('stock.wasLostOnTheWay', { code: losing.code })}
            onClose={() => setLosing(undefined)}
            reasonLabel={t('stock.whatHappened')}
            confirmLabel={t('stock.giveItUpAsLost')}
            isDanger
            isPending={lose.isPending}
            error={lose.error}
            onConfirm={(reason) =>
              lose.mutate({
                params: { shipmentId: shipment.id },
                body: { cartridgeIds: [losing.cartridgeId], reason },
              })
            }
          >
            <p style={{ margin: 0 }}>{t('stock.itCountsNowhereFromNowOnShouldItTurn')}</p>
          </ReasonDialog>
        )}
      </Sheet>
    </Section>
  )
}

function Arrival({ shipment, onArrived }: Props) {
  const [locationId, setLocationId] = useState('')
  const locations = useQuery(shopQueries.locations(shipment.toShopId))
  const arrive = useAction(ROUTES.arriveShipment, { topics: ['stock', 'alerts'], onDone: onArrived })
  return (
    <>
      <Group align="flex-end" mt="md">
        <NativeSelect
          label={t('stock.putWhere')}
          value={locationId}
          data={[
            { value: '', label: t('stock.noPlaceYet') },
            ...(locations.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={(event) => setLocationId(event.currentTarget.value)}
        />
        <Button
          leftSection={<PackageCheck size={16} aria-hidden />}
          loading={arrive.isPending}
          onClick={() =>
            arrive.mutate({
              params: { shipmentId: shipment.id },
              body: { locationId: locationId === '' ? null : locationId },
            })
          }
        >
          {t('stock.allHaveArrived', { onTheWay: shipment.onTheWay })}
        </Button>
      </Group>
      <ProblemPanel error={arrive.error} />
    </>
  )
}
