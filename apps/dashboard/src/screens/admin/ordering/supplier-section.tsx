import { formatMoney } from '../../../lib/measures.ts'
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
import { t } from '../../../lib/reader.ts'

export function SupplierSection({ currency }: { readonly currency: string }) {
  const suppliers = useQuery(replenishmentQueries.suppliers())
  const may = useMay()
  const [editing, setEditing] = useState<Supplier | 'new'>()
  const columns: readonly Column<Supplier>[] = [
    { head: 'admin.supplier', cell: ({ name, active }) => (active ? name : t('admin.outOfUse', { name })) },
    { head: 'admin.eMail', cell: ({ email }) => email },
    {
      head: 'admin.leadTime',
      cell: ({ leadDays, leadDeviationDays }) => t('admin.days2', { leadDays, leadDeviationDays }),
    },
    { head: 'admin.costPerOrder', number: true, cell: (row) => formatMoney(row.orderCostCents, currency) },
    {
      head: 'admin.change2',
      cell: (row) => (
        <Button
          size="xs"
          variant="default"
          aria-label={t('admin.change', { name: row.name })}
          disabled={!may('manageCatalogue', null)}
          onClick={() => setEditing(row)}
        >
          {t('admin.change2')}
        </Button>
      ),
    },
  ]
  return (
    <Section title={t('admin.suppliers')}>
      <SectionHead
        addLabel={t('admin.addSupplier')}
        onAdd={may('manageCatalogue', null) ? () => setEditing('new') : undefined}
      />
      <Answered query={suppliers} what={t('admin.suppliers2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noneYet')}>{t('admin.ordersAreProposedOnceItIsKnownWho')}</Empty>
          ) : (
            <Table caption={t('admin.suppliers')} columns={columns} rows={items} rowKey={({ id }) => id} />
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
      title={supplier === undefined ? t('admin.addSupplier') : t('admin.change', { name: supplier.name })}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={supplier === undefined ? t('admin.add') : t('admin.save')}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      <TextInput label={t('admin.eMail')} type="email" {...form.getInputProps('email')} />
      <NumberInput
        label={t('admin.leadTimeDays')}
        description={t('admin.fromTheOrderToTheShelf')}
        required
        min={0}
        max={365}
        {...form.getInputProps('leadDays')}
      />
      <NumberInput
        label={t('admin.leadTimeVariesByDays')}
        description={t('admin.standardDeviationTwoDeliveriesOf')}
        required
        min={0}
        max={90}
        {...form.getInputProps('leadDeviationDays')}
      />
      <MoneyInput
        label={t('admin.costPerOrder')}
        description={t('admin.freightAndWorkWhateverItCarries')}
        currency={currency}
        cents={form.values.orderCostCents}
        onChange={(cents) => form.setFieldValue('orderCostCents', cents)}
        error={form.errors['orderCostCents']}
      />
      {supplier !== undefined && (
        <Checkbox label={t('admin.inUse')} {...form.getInputProps('active', { type: 'checkbox' })} />
      )}
    </FormDialog>
  )
}
