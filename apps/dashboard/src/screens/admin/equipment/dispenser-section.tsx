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

const COLUMNS: readonly Column<Dispenser>[] = [
  { head: 'Name', cell: ({ name }) => <strong>{name}</strong> },
  { head: 'Takes', cell: ({ cartridgeForms }) => cartridgeForms.join(', ') },
]

export function DispenserSection({ shopId }: { readonly shopId: string }) {
  const dispensers = useQuery(shopQueries.dispensers(shopId))
  const may = useMay()
  const [adding, { open, close }] = useDisclosure()
  return (
    <Section title="Dispensers">
      <SectionHead addLabel="Add dispenser" onAdd={may('handleStock', shopId) ? open : undefined} />
      <Answered query={dispensers} what="dispensers">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No dispenser yet.">Without one, no cartridge counts as stock here.</Empty>
          ) : (
            <Table caption="Dispensers" columns={COLUMNS} rows={items} rowKey={({ id }) => id} />
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
      title="Add dispenser"
      onClose={onClose}
      onSubmit={form.onSubmit((body) => add.mutate({ params: { shopId }, body }))}
      submitLabel="Add"
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput label="Name" required data-autofocus {...form.getInputProps('name')} />
      <TagsInput
        label="Cartridge forms that it takes"
        description="As on the products; Enter adds one"
        required
        data={forms}
        {...form.getInputProps('cartridgeForms')}
      />
    </FormDialog>
  )
}
