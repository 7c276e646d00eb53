import { formatMoney } from '../../../lib/measures.ts'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, NativeSelect, NumberInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { productQueries } from '../../../api/queries/products.ts'
import { replenishmentQueries } from '../../../api/queries/replenishment.ts'
import type { Product, ProductSupply } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { MoneyInput } from './money-input.tsx'
import { t } from '../../../lib/reader.ts'

interface Row {
  readonly product: Product
  readonly supply: ProductSupply | undefined
}

/** Every product, with where it is ordered: one that nobody supplies is never proposed. */
export function SupplySection({ currency }: { readonly currency: string }) {
  const products = useQuery(productQueries.all())
  const supplies = useQuery(replenishmentQueries.supplies())
  const may = useMay()
  const [editing, setEditing] = useState<Row>()
  const columns: readonly Column<Row>[] = [
    { head: 'admin.product', cell: ({ product }) => product.name },
    { head: 'admin.orderedFrom', cell: ({ supply }) => supply?.supplierName ?? t('admin.nobodyYet') },
    {
      head: 'admin.aCartridge',
      number: true,
      cell: ({ supply }) => (supply ? formatMoney(supply.unitPriceCents, currency) : ''),
    },
    { head: 'admin.boxOf', number: true, cell: ({ supply }) => supply?.boxOf ?? '' },
    { head: 'admin.comesWithDays', number: true, cell: ({ supply }) => supply?.freshDays ?? '' },
    {
      head: 'admin.change2',
      cell: (row) => (
        <Button
          size="xs"
          variant="default"
          aria-label={t('admin.changeTheSupplyOf', { name: row.product.name })}
          disabled={!may('manageCatalogue', null)}
          onClick={() => setEditing(row)}
        >
          {t('admin.change2')}
        </Button>
      ),
    },
  ]
  return (
    <Section title={t('admin.whereEachProductIsOrdered')}>
      <Answered query={products} what={t('admin.products')}>
        {({ items }) => (
          <Answered query={supplies} what={t('admin.supplies')}>
            {(known) => (
              <Table
                caption={t('admin.whereEachProductIsOrdered')}
                columns={columns}
                rows={items.map((product) => ({
                  product,
                  supply: known.items.find(({ productId }) => productId === product.id),
                }))}
                rowKey={({ product }) => product.id}
              />
            )}
          </Answered>
        )}
      </Answered>
      {editing !== undefined && (
        <SupplyDialog row={editing} currency={currency} onClose={() => setEditing(undefined)} />
      )}
    </Section>
  )
}

interface DialogProps {
  readonly row: Row
  readonly currency: string
  readonly onClose: () => void
}

function SupplyDialog({ row: { product, supply }, currency, onClose }: DialogProps) {
  const suppliers = useQuery(replenishmentQueries.suppliers()).data?.items ?? []
  const usable = suppliers.filter(({ active, id }) => active || id === supply?.supplierId)
  const form = useForm({
    initialValues: {
      supplierId: supply?.supplierId ?? '',
      unitPriceCents: supply?.unitPriceCents ?? 0,
      boxOf: supply?.boxOf ?? 1,
      freshDays: supply?.freshDays ?? 270,
    },
  })
  const options = { topics: ['stock'] as const, onDone: onClose }
  const add = useAction(ROUTES.addProductSupply, options)
  const edit = useAction(ROUTES.editProductSupply, options)
  const error = add.error ?? edit.error
  const others = useFormReasons(form, error)
  const params = { productId: product.id }
  const submit = form.onSubmit((body) => {
    if (supply === undefined) add.mutate({ params, body })
    else edit.mutate({ params, ifMatch: supply.version, body })
  })
  return (
    <FormDialog
      title={t('admin.supplyOf', { name: product.name })}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.save')}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <NativeSelect
        label={t('admin.orderedFrom')}
        required
        data={[
          { value: '', label: usable.length === 0 ? t('admin.addASupplierFirst') : t('admin.choose') },
          ...usable.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('supplierId')}
      />
      <MoneyInput
        label={t('admin.unitCost')}
        currency={currency}
        cents={form.values.unitPriceCents}
        onChange={(cents) => form.setFieldValue('unitPriceCents', cents)}
        error={form.errors['unitPriceCents']}
      />
      <NumberInput
        label={t('admin.cartridgesInABox')}
        description={t('admin.ordersAreProposedInWholeBoxes')}
        required
        min={1}
        max={200}
        allowDecimal={false}
        {...form.getInputProps('boxOf')}
      />
      <NumberInput
        label={t('admin.shelfLifeOnDeliveryDays')}
        description={t('admin.asDeliveriesUsuallyComeNoMoreIs')}
        required
        min={1}
        max={3650}
        allowDecimal={false}
        {...form.getInputProps('freshDays')}
      />
    </FormDialog>
  )
}
