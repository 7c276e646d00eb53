import { ROUTES } from '../../../api/contracts.ts'
import { TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { shopQueries } from '../../../api/queries/shops.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Section } from '../../../ui/page.tsx'
import { Table } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'
import { t } from '../../../lib/reader.ts'

export function LocationSection({ shopId }: { readonly shopId: string }) {
  const locations = useQuery(shopQueries.locations(shopId))
  const may = useMay()
  const [adding, { open, close }] = useDisclosure()
  return (
    <Section title={t('admin.storageLocations')}>
      <SectionHead
        addLabel={t('admin.addStorageLocation')}
        onAdd={may('handleStock', shopId) ? open : undefined}
      />
      <Answered query={locations} what={t('admin.storageLocations2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noneYet')} />
          ) : (
            <Table
              caption={t('admin.storageLocations')}
              columns={[{ head: 'admin.name', cell: ({ name }) => name }]}
              rows={items}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
      {adding && <LocationDialog shopId={shopId} onClose={close} />}
    </Section>
  )
}

function LocationDialog({ shopId, onClose }: { readonly shopId: string; readonly onClose: () => void }) {
  const form = useForm({ initialValues: { name: '' } })
  const add = useAction(ROUTES.addStorageLocation, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  return (
    <FormDialog
      title={t('admin.addStorageLocation')}
      onClose={onClose}
      onSubmit={form.onSubmit((body) => add.mutate({ params: { shopId }, body }))}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput
        label={t('admin.name')}
        description={t('admin.cabinetShelfOrRefrigerator')}
        required
        data-autofocus
        {...form.getInputProps('name')}
      />
    </FormDialog>
  )
}
