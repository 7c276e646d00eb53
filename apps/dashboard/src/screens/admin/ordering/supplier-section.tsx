import { formatMoney } from '@clampclock/quantities'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, Checkbox, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { replenishmentQueries } from '../../../api/queries/replenishment.ts'
import type { Supplier } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { MoneyInput } from './money-input.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'

export function SupplierSection({ currency }: { readonly currency: string }) {
  const suppliers = useQuery(replenishmentQueries.suppliers())
  const may = useMay()
  const [editing, setEditing] = useState<Supplier | 'new'>()
  const columns: readonly Column<Supplier>[] = [
    { head: 'Supplier', cell: ({ name, active }) => (active ? name : `${name} (out of use)`) },
    { head: 'E-mail', cell: ({ email }) => email },
    {
      head: 'Lead time',
      cell: ({ leadDays, leadDeviationDays }) => `${leadDays} days, ± ${leadDeviationDays}`,
    },
    { head: 'Cost per order', number: true, cell: (row) => formatMoney(row.orderCostCents, currency) },
    {
      head: 'Change',
      cell: (row) => (
        <Button
          size="xs"
          variant="default"
          aria-label={`Change ${row.name}`}
          disabled={!may('manageCatalogue', null)}
          onClick={() => setEditing(row)}
        >
          Change
        </Button>
      ),
    },
  ]
  return (
    <Section title="Suppliers">
      <SectionHead
        addLabel="Add supplier"
        onAdd={may('manageCatalogue', null) ? () => setEditing('new') : undefined}
      />
      <Answered query={suppliers} what="suppliers">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="None yet.">Orders are proposed once it is known who delivers.</Empty>
          ) : (
            <Table caption="Suppliers" columns={columns} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
      {editing !== undefined && (
        <SupplierDialog
          supplier={editing === 'new' ? undefined : editing}
          currency={currency}
          onClose={() => setEditing(undefined)}
        />
      )}
    </Section>
  )
}

interface DialogProps {
  readonly supplier: Supplier | undefined
  readonly currency: string
  readonly onClose: () => void
}

function SupplierDialog({ supplier, currency, onClose }: DialogProps) {
  const form = useForm({
    initialValues: {
      name: supplier?.name ?? '',
      email: supplier?.email ?? '',
      leadDays: supplier?.leadDays ?? 5,
      leadDeviationDays: supplier?.leadDeviationDays ?? 1,
      orderCostCents: supplier?.orderCostCents ?? 0,
      active: supplier?.active ?? true,
    },
  })
  const options = { topics: ['stock'] as const, onDone: onClose }
  const add = useAction(ROUTES.addSupplier, options)
  const edit = useAction(ROUTES.editSupplier, options)
  const error = add.error ?? edit.error
  const others = useFormReasons(form, error)
  const submit = form.onSubmit(({ active, ...body }) => {
    if (supplier === undefined) add.mutate({ body })
    else
      edit.mutate({
        params: { supplierId: supplier.id },
        ifMatch: supplier.version,
        body: { ...body, active },
      })
  })
  return (
    <FormDialog
      title={supplier === undefined ? 'Add supplier' : `Change ${supplier.name}`}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={supplier === undefined ? 'Add' : 'Save'}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <TextInput label="Name" required data-autofocus {...form.getInputProps('name')} />
      <TextInput label="E-mail" type="email" {...form.getInputProps('email')} />
      <NumberInput
        label="Lead time, days"
        description="From the order to the shelf"
        required
        min={0}
        max={365}
        {...form.getInputProps('leadDays')}
      />
      <NumberInput
        label="Lead time varies by, days"
        description="Standard deviation: two deliveries of three come within so many days of the lead time"
        required
        min={0}
        max={90}
        {...form.getInputProps('leadDeviationDays')}
      />
      <MoneyInput
        label="Cost per order"
        description="Freight and work, whatever it carries"
        currency={currency}
        cents={form.values.orderCostCents}
        onChange={(cents) => form.setFieldValue('orderCostCents', cents)}
        error={form.errors['orderCostCents']}
      />
      {supplier !== undefined && (
        <Checkbox label="In use" {...form.getInputProps('active', { type: 'checkbox' })} />
      )}
    </FormDialog>
  )
}
