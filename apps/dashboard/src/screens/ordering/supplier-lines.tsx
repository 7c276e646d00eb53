import { formatVolume, formatMoney } from '../../lib/measures.ts'
import { ROUTES } from '../../api/contracts.ts'
import { Button, NumberInput } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { useState } from 'react'
import type { Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { Section } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import type { SuppliedLine, SupplierGroup } from './by-supplier.ts'
import { levelText, standsText } from './line-text.ts'
import styles from './ordering.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly group: SupplierGroup
  readonly shop: Shop
  readonly currency: string
  readonly mayOrder: boolean
}

/** What one supplier delivers: how it stands, what is proposed, and the order that a person makes of it. */
export function SupplierLines({ group, shop, currency, mayOrder }: Props) {
  const navigate = useNavigate()
  const [wanted, setWanted] = useState<Readonly<Record<string, number>>>(() =>
    Object.fromEntries(group.lines.map((line) => [line.productId, line.suggestedCartridges])),
  )
  const draft = useAction(ROUTES.addOrder, {
    topics: ['stock'],
    onDone: ({ id }) => void navigate({ to: '/ordering/orders/$orderId', params: { orderId: id } }),
  })
  const chosen = group.lines
    .map(({ productId, supply }) => ({ productId, supply, cartridges: wanted[productId] ?? 0 }))
    .filter(({ cartridges }) => cartridges > 0)
  const totalCents = chosen.reduce((sum, line) => sum + line.cartridges * line.supply.unitPriceCents, 0)
  const columns: readonly Column<SuppliedLine>[] = [
    {
      head: 'ordering.product',
      cell: (line) => (
        <>
          <strong>{line.productName}</strong>
          <br />
          {line.reason}
        </>
      ),
    },
    {
      head: 'ordering.order',
      cell: (line) => (
        <NumberInput
          aria-label={t('ordering.cartridgesOfToOrder', { productName: line.productName })}
          className={styles['amount'] ?? ''}
          min={0}
          max={5000}
          step={line.supply.boxOf}
          allowDecimal={false}
          disabled={!mayOrder}
          value={wanted[line.productId] ?? 0}
          onChange={(value) => setWanted({ ...wanted, [line.productId]: Number(value) || 0 })}
          description={line.supply.boxOf > 1 ? t('ordering.boxOf', { boxOf: line.supply.boxOf }) : undefined}
          inputWrapperOrder={['input', 'description']}
        />
      ),
    },
    { head: 'ordering.onHand', cell: standsText },
    { head: 'ordering.used', cell: (line) => levelText(line) },
    {
      head: 'ordering.likelyLost',
      number: true,
      cell: (line) =>
        line.expectedWasteMl < 1 ? '–' : <Mark tone="warning">{formatVolume(line.expectedWasteMl)}</Mark>,
    },
  ]
  return (
    <Section title={group.supplierName}>
      <Table
        caption={t('ordering.whatDelivers', { supplierName: group.supplierName })}
        columns={columns}
        rows={group.lines}
        rowKey={({ productId }) => productId}
      />
      <ProblemPanel error={draft.error} />
      {mayOrder && (
        <div className={styles['foot']}>
          <span>
            {chosen.length === 0
              ? t('ordering.nothingChosen')
              : t('ordering.cartridges2', {
                  chosen: chosen.reduce((n, { cartridges }) => n + cartridges, 0),
                  totalCents: formatMoney(totalCents, currency),
                })}
          </span>
          <Button
            disabled={chosen.length === 0}
            loading={draft.isPending}
            onClick={() =>
              draft.mutate({
                params: { shopId: shop.id },
                body: {
                  supplierId: group.supplierId,
                  lines: chosen.map(({ productId, cartridges }) => ({ productId, cartridges })),
                },
              })
            }
          >
            {t('ordering.draftOrder')}
          </Button>
        </div>
      )}
    </Section>
  )
}
