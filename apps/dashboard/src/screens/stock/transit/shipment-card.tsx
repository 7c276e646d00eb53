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

type Line = Shipment['lines'][number]

/** One shipment: what is in it, and, for those who may, that it has arrived or was lost. */
export function ShipmentCard({ shipment }: { readonly shipment: Shipment }) {
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
      head: 'Cartridge',
      cell: (line) => (
        <Link to="/stock/cartridges/$cartridgeId" params={{ cartridgeId: line.cartridgeId }}>
          {line.code}
        </Link>
      ),
    },
    { head: 'Product and lot', cell: (line) => `${line.productName}, lot ${line.lotNumber}` },
    {
      head: 'How it went',
      cell: (line) =>
        line.outcome === null ? (
          <Mark tone="quiet">On its way</Mark>
        ) : (
          <Mark tone={line.outcome === 'arrived' ? 'ready' : 'warning'}>
            <>
              {line.outcome === 'arrived' ? 'Arrived' : 'Lost'}
              {line.settledAt !== null && (
                <>
                  {', '}
                  <When at={line.settledAt} zone={zoneOf(to)} /> by {line.settledBy}
                </>
              )}
            </>
          </Mark>
        ),
    },
    {
      head: 'Change',
      cell: (line) =>
        line.outcome === null && mayLose ? (
          <Button
            size="xs"
            variant="default"
            aria-label={`${line.code} was lost`}
            onClick={() => setLosing(line)}
          >
            Lost
          </Button>
        ) : line.outcome === 'lost' && mayArrive ? (
          <Button
            size="xs"
            variant="default"
            aria-label={`${line.code} has turned up`}
            onClick={() =>
              arrive.mutate({
                params: { shipmentId: shipment.id },
                body: { cartridgeIds: [line.cartridgeId], reason: 'Turned up' },
              })
            }
          >
            Turned up
          </Button>
        ) : null,
    },
  ]
  return (
    <Section title={`${from?.name ?? 'Another shop'} to ${to?.name ?? 'another shop'}`}>
      <Sheet padded>
        <p style={{ marginTop: 0 }}>
          Sent <When at={shipment.sentAt} zone={zoneOf(from)} style="full" /> by {shipment.sentBy}:{' '}
          {shipment.reason}
        </p>
        {shipment.warnings.map((warning) => (
          <p key={warning}>
            <Mark tone="warning">{warning}</Mark>
          </p>
        ))}
        <Table
          caption="Cartridges of the shipment"
          columns={columns}
          rows={shipment.lines}
          rowKey={({ cartridgeId }) => cartridgeId}
        />
        <ProblemPanel error={arrive.error} />
        {shipment.onTheWay > 0 && mayArrive && <Arrival shipment={shipment} />}
        {losing !== undefined && (
          <ReasonDialog
            opened
            title={`${losing.code} was lost on the way`}
            onClose={() => setLosing(undefined)}
            reasonLabel="What happened?"
            confirmLabel="Give it up as lost"
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
            <p style={{ margin: 0 }}>
              It counts nowhere from now on. Should it turn up, take it in here all the same.
            </p>
          </ReasonDialog>
        )}
      </Sheet>
    </Section>
  )
}

function Arrival({ shipment }: { readonly shipment: Shipment }) {
  const [locationId, setLocationId] = useState('')
  const locations = useQuery(shopQueries.locations(shipment.toShopId))
  const arrive = useAction(ROUTES.arriveShipment, { topics: ['stock', 'alerts'] })
  return (
    <>
      <Group align="flex-end" mt="md">
        <NativeSelect
          label="Put where"
          value={locationId}
          data={[
            { value: '', label: 'No place yet' },
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
          {shipment.onTheWay === 1 ? 'It has arrived' : `All ${shipment.onTheWay} have arrived`}
        </Button>
      </Group>
      <ProblemPanel error={arrive.error} />
    </>
  )
}
