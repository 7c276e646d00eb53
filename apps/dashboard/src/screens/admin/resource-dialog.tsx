import { ROUTES } from '@clampclock/contracts'
import { NativeSelect, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { accessQueries } from '../../api/queries/access.ts'
import type { Resource } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { choicesOf, RESOURCE } from '../../lib/words.ts'
import { FormDialog } from './form-dialog.tsx'

interface Values {
  kind: Resource['kind']
  name: string
  capacity: number | string
  personId: string
}

export function ResourceDialog({
  shopId,
  onClose,
}: {
  readonly shopId: string
  readonly onClose: () => void
}) {
  const form = useForm<Values>({ initialValues: { kind: 'bay', name: '', capacity: 1, personId: '' } })
  const { kind } = form.values
  const people = useQuery({ ...accessQueries.people(), enabled: kind === 'technician' })
  const add = useAction(ROUTES.addResource, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  const submit = form.onSubmit(({ name, capacity, personId }) =>
    add.mutate({
      params: { shopId },
      body: {
        kind,
        name,
        capacity: kind === 'clampSet' ? Number(capacity) : 1,
        personId: kind === 'technician' && personId !== '' ? personId : null,
      },
    }),
  )
  return (
    <FormDialog
      title="Add to the shop"
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Add"
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <NativeSelect label="Kind" data={choicesOf(RESOURCE)} {...form.getInputProps('kind')} />
      <TextInput label="Name" required data-autofocus {...form.getInputProps('name')} />
      {kind === 'clampSet' && (
        <NumberInput label="How many" min={1} max={500} required {...form.getInputProps('capacity')} />
      )}
      {kind === 'technician' && (
        <NativeSelect
          label="Who"
          data={[
            { value: '', label: 'Nobody who signs in' },
            ...(people.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
          ]}
          {...form.getInputProps('personId')}
        />
      )}
    </FormDialog>
  )
}
