import { formatMoney } from '@clampclock/quantities'
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
    { head: 'Product', cell: ({ product }) => product.name },
    { head: 'Ordered from', cell: ({ supply }) => supply?.supplierName ?? 'nobody yet' },
    {
      head: 'A cartridge',
      number: true,
      cell: ({ supply }) => (supply ? formatMoney(supply.unitPriceCents, currency) : ''),
    },
    { head: 'Box of', number: true, cell: ({ supply }) => supply?.boxOf ?? '' },
    { head: 'Comes with, days', number: true, cell: ({ supply }) => supply?.freshDays ?? '' },
    {
      head: 'Change',
      cell: (row) => (
        <Button
          size="xs"
          variant="default"
          aria-label={`Change the supply of ${row.product.name}`}
          disabled={!may('manageCatalogue', null)}
          onClick={() => setEditing(row)}
        >
          Change
        </Button>
      ),
    },
  ]
  return (
    <Section title="Where each product is ordered">
      <Answered query={products} what="products">
        {({ items }) => (
          <Answered query={supplies} what="supplies">
            {(known) => (
              <Table
                caption="Where each product is ordered"
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
      title={`Supply of ${product.name}`}
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Save"
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <NativeSelect
        label="Ordered from"
        required
        data={[
          { value: '', label: usable.length === 0 ? 'Add a supplier first' : 'Choose…' },
          ...usable.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('supplierId')}
      />
      <MoneyInput
        label="Unit cost"
        currency={currency}
        cents={form.values.unitPriceCents}
        onChange={(cents) => form.setFieldValue('unitPriceCents', cents)}
        error={form.errors['unitPriceCents']}
      />
      <NumberInput
        label="Cartridges in a box"
        description="Orders are proposed in whole boxes"
        required
        min={1}
        max={200}
        allowDecimal={false}
        {...form.getInputProps('boxOf')}
      />
      <NumberInput
        label="Shelf life on delivery, days"
        description="As deliveries usually come: no more is proposed than is used in it"
        required
        min={1}
        max={3650}
        allowDecimal={false}
        {...form.getInputProps('freshDays')}
      />
    </FormDialog>
  )
}
