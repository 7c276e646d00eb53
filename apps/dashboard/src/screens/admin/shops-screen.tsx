import { ROUTES } from '../../api/contracts.ts'
import { Autocomplete, Button, NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { Plus } from 'lucide-react'
import { useState } from 'react'
import type { Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay, useShops } from '../../api/use-me.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Page } from '../../ui/page.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Empty } from '../../ui/waiting.tsx'
import { AdminNav } from './admin-nav.tsx'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'

export function ShopsScreen() {
  const shops = useShops()
  const may = useMay()
  const [editing, setEditing] = useState<Shop | 'new'>()
  const columns: readonly Column<Shop>[] = [
    { head: 'Shop', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'Time zone', cell: ({ timeZone }) => timeZone },
    { head: 'Temperatures', cell: ({ temperatureUnit }) => `°${temperatureUnit}` },
    ...(may('manageChain')
      ? [
          {
            head: 'Change',
            cell: (shop: Shop) =>
              may('manageChain', shop.id) && (
                <Button
                  size="xs"
                  variant="default"
                  aria-label={`Change ${shop.name}`}
                  onClick={() => setEditing(shop)}
                >
                  Change
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <Page
      title="Shops"
      actions={
        may('manageChain', null) && (
          <Button leftSection={<Plus size={16} aria-hidden />} onClick={() => setEditing('new')}>
            Add shop
          </Button>
        )
      }
    >
      <AdminNav />
      {shops.length === 0 ? (
        <Empty title="No shops yet.">Add the first one; bays, ovens and people come after it.</Empty>
      ) : (
        <Table caption="Shops" columns={columns} rows={shops} rowKey={({ id }) => id} />
      )}
      {editing !== undefined && (
        <ShopDialog shop={editing === 'new' ? undefined : editing} onClose={() => setEditing(undefined)} />
      )}
    </Page>
  )
}

const UNITS = [
  { value: 'F', label: '°F' },
  { value: 'C', label: '°C' },
]

function ShopDialog({ shop, onClose }: { readonly shop: Shop | undefined; readonly onClose: () => void }) {
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone
  const form = useForm({
    initialValues: {
      name: shop?.name ?? '',
      timeZone: shop?.timeZone ?? here,
      temperatureUnit: shop?.temperatureUnit ?? ('F' as const),
    },
  })
  const options = { topics: ['shops'] as const, onDone: onClose }
  const add = useAction(ROUTES.addShop, options)
  const edit = useAction(ROUTES.editShop, options)
  const error = add.error ?? edit.error
  const others = useFormReasons(form, error)
  const submit = form.onSubmit((body) => {
    if (shop === undefined) add.mutate({ body })
    else edit.mutate({ params: { shopId: shop.id }, ifMatch: shop.version, body })
  })
  return (
    <FormDialog
      title={shop === undefined ? 'Add shop' : `Change ${shop.name}`}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={shop === undefined ? 'Add' : 'Save'}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <TextInput label="Name" required data-autofocus {...form.getInputProps('name')} />
      <Autocomplete
        label="Time zone"
        description="Days, nights and expiries count on its clock"
        required
        limit={12}
        data={Intl.supportedValuesOf('timeZone')}
        {...form.getInputProps('timeZone')}
      />
      <NativeSelect label="Temperatures in" data={UNITS} {...form.getInputProps('temperatureUnit')} />
    </FormDialog>
  )
}
