import { formatMoney } from '@clampclock/quantities'
import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { Truck } from 'lucide-react'
import type { TransferPlan } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useShops } from '../../api/use-me.ts'
import { Facts } from '../../ui/facts.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table } from '../../ui/table.tsx'
import { Empty } from '../../ui/waiting.tsx'

/** Asked for by a person: it weighs every lot against every shop. */
export function Transfers() {
  const plan = useAction(ROUTES.planTransfers, { topics: [] })
  return (
    <Section title="Send it to where it is used">
      <p>
        Finds the transfers between shops that save more than their trips cost: whole cartridges, over the
        ways on file, the best there is by the expected use.
      </p>
      <Button
        variant="default"
        leftSection={<Truck size={16} aria-hidden />}
        loading={plan.isPending}
        onClick={() => plan.mutate({ body: {} })}
      >
        {plan.data === undefined ? 'Find transfers that pay' : 'Find them again'}
      </Button>
      <ProblemPanel error={plan.error} />
      <div aria-live="polite">{plan.data !== undefined && <Found plan={plan.data} />}</div>
    </Section>
  )
}

function Found({ plan }: { readonly plan: TransferPlan }) {
  const shops = useShops()
  const nameOf = (id: string) => shops.find((shop) => shop.id === id)?.name ?? ''
  const money = (cents: number) => formatMoney(cents, plan.currency)
  return (
    <>
      {plan.notes.map((note) => (
        <p key={note}>{note}.</p>
      ))}
      {plan.transfers.length === 0 ? (
        <Empty title="No transfer pays.">What would be saved is less than the trips cost.</Empty>
      ) : (
        <>
          <Facts
            facts={[
              ['Saved in all', money(plan.savedCents)],
              ['Lost without', money(plan.wasteWithoutCents)],
              ['Lost with', money(plan.wasteWithCents)],
              ['Trips and packing', money(plan.transferCostCents)],
              [
                'Best there is',
                plan.isOptimal ? `proved, to within ${plan.gap * 100} %` : 'the best found in the time',
              ],
            ]}
          />
          <Table
            caption="Transfers that pay"
            columns={[
              { head: 'From', cell: ({ fromShopId }) => nameOf(fromShopId) },
              { head: 'To', cell: ({ toShopId }) => nameOf(toShopId) },
              {
                head: 'What',
                cell: ({ cartridges, productName, lotNumber }) =>
                  `${cartridges} × ${productName}, lot ${lotNumber}`,
              },
              { head: 'Which', cell: ({ codes }) => codes.join(', ') },
            ]}
            rows={plan.transfers}
            rowKey={({ fromShopId, toShopId, codes }) => `${fromShopId} ${toShopId} ${codes.join()}`}
          />
        </>
      )}
    </>
  )
}
