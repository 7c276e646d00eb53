import { ROUTES } from '../../../api/contracts.ts'
import { TagsInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { productQueries } from '../../../api/queries/products.ts'
import { shopQueries } from '../../../api/queries/shops.ts'
import type { Dispenser } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'
import { t } from '../../../lib/reader.ts'

const COLUMNS: readonly Column<Dispenser>[] = [
  { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
  { head: 'admin.takes', cell: ({ cartridgeForms }) => cartridgeForms.join(', ') },
]

export function DispenserSection({ shopId }: { readonly shopId: string }) {
  const dispensers = useQuery(shopQueries.dispensers(shopId))
  const may = useMay()
  const [adding, { open, close }] = useDisclosure()
  return (
    <Section title={t('admin.dispensers')}>
      <SectionHead addLabel={t('admin.addDispenser')} onAdd={may('handleStock', shopId) ? open : undefined} />
      <Answered query={dispensers} what={t('admin.dispensers2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noDispenserYet')}>{t('admin.withoutOneNoCartridgeCountsAsStock')}</Empty>
          ) : (
            <Table caption={t('admin.dispensers')} columns={COLUMNS} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
      {adding && <DispenserDialog shopId={shopId} onClose={close} />}
    </Section>
  )
}

function DispenserDialog({ shopId, onClose }: { readonly shopId: string; readonly onClose: () => void }) {
  const products = useQuery(productQueries.all())
  const forms = [...new Set((products.data?.items ?? []).map(({ cartridgeForm }) => cartridgeForm))]
  const form = useForm({ initialValues: { name: '', cartridgeForms: [] as string[] } })
  const add = useAction(ROUTES.addDispenser, { topics: ['shops', 'stock'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  return (
    <FormDialog
      title={t('admin.addDispenser')}
      onClose={onClose}
      onSubmit={form.onSubmit((body) => add.mutate({ params: { shopId }, body }))}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      <TagsInput
        label={t('admin.cartridgeFormsThatItTakes')}
        description={t('admin.asOnTheProductsEnterAddsOne')}
        required
        data={forms}
        {...form.getInputProps('cartridgeForms')}
      />
    </FormDialog>
  )
}
