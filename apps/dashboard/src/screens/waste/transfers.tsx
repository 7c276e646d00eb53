import { formatMoney } from '../../lib/measures.ts'
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
import { t } from '../../lib/reader.ts'

/** Asked for by a person: it weighs every lot against every shop. */
export function Transfers() {
  const plan = useAction(ROUTES.planTransfers, { topics: [] })
  return (
    <Section title={t('waste.sendItToWhereItIsUsed')}>
      <p>{t('waste.findsTheTransfersBetweenShopsThat')}</p>
      <Button
        variant="default"
        leftSection={<Truck size={16} aria-hidden />}
        loading={plan.isPending}
        onClick={() => plan.mutate({ body: {} })}
      >
        {plan.data === undefined ? t('waste.findTransfersThatPay') : t('waste.findThemAgain')}
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
        <Empty title={t('waste.noTransferPays')}>{t('waste.whatWouldBeSavedIsLessThanTheTrips')}</Empty>
      ) : (
        <>
          <Facts
            facts={[
              [t('waste.savedInAll'), money(plan.savedCents)],
              [t('waste.lostWithout'), money(plan.wasteWithoutCents)],
              [t('waste.lostWith'), money(plan.wasteWithCents)],
              [t('waste.tripsAndPacking'), money(plan.transferCostCents)],
              [
                t('waste.bestThereIs'),
                plan.isOptimal
                  ? t('waste.provedToWithin', { gap: plan.gap * 100 })
                  : t('waste.theBestFoundInTheTime'),
              ],
            ]}
          />
          <Table
            caption={t('waste.transfersThatPay')}
            columns={[
              { head: 'waste.from', cell: ({ fromShopId }) => nameOf(fromShopId) },
              { head: 'waste.to', cell: ({ toShopId }) => nameOf(toShopId) },
              {
                head: 'waste.what',
                cell: ({ cartridges, productName, lotNumber }) =>
                  t('waste.lot', { cartridges, productName, lotNumber }),
              },
              { head: 'waste.which', cell: ({ codes }) => codes.join(', ') },
            ]}
            rows={plan.transfers}
            rowKey={({ fromShopId, toShopId, codes }) => `${fromShopId} ${toShopId} ${codes.join()}`}
          />
        </>
      )}
    </>
  )
}
