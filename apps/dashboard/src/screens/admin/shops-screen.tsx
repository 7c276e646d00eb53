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
import { t } from '../../lib/reader.ts'

export function ShopsScreen() {
  const shops = useShops()
  const may = useMay()
  const [editing, setEditing] = useState<Shop | 'new'>()
  const columns: readonly Column<Shop>[] = [
    { head: 'admin.shop', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'admin.timeZone', cell: ({ timeZone }) => timeZone },
    { head: 'admin.temperatures', cell: ({ temperatureUnit }) => `°${temperatureUnit}` },
    ...(may('manageChain')
      ? [
          {
            head: 'admin.change2' as const,
            cell: (shop: Shop) =>
              may('manageChain', shop.id) && (
                <Button
                  size="xs"
                  variant="default"
                  aria-label={t('admin.change', { name: shop.name })}
                  onClick={() => setEditing(shop)}
                >
                  {t('admin.change2')}
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <Page
      title={t('admin.shops')}
      actions={
        may('manageChain', null) && (
          <Button leftSection={<Plus size={16} aria-hidden />} onClick={() => setEditing('new')}>
            {t('admin.addShop')}
          </Button>
        )
      }
    >
      <AdminNav />
      {shops.length === 0 ? (
        <Empty title={t('admin.noShopsYet')}>{t('admin.addTheFirstOneBaysOvensAndPeopleCome')}</Empty>
      ) : (
        <Table caption={t('admin.shops')} columns={columns} rows={shops} rowKey={({ id }) => id} />
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
      title={shop === undefined ? t('admin.addShop') : t('admin.change', { name: shop.name })}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={shop === undefined ? t('admin.add') : t('admin.save')}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      <Autocomplete
        label={t('admin.timeZone')}
        description={t('admin.daysNightsAndExpiriesCountOnItsClock')}
        required
        limit={12}
        data={Intl.supportedValuesOf('timeZone')}
        {...form.getInputProps('timeZone')}
      />
      <NativeSelect
        label={t('admin.temperaturesIn')}
        data={UNITS}
        {...form.getInputProps('temperatureUnit')}
      />
    </FormDialog>
  )
}
