import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { DayException, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { choicesOf, DAY_EXCEPTION } from '../../lib/words.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
  readonly today: string
  readonly onClose: () => void
}

interface Values {
  kind: DayException['kind']
  resourceId: string
  firstDay: string
  lastDay: string
  from: string
  until: string
  note: string
}

export function ExceptionDialog({ shop, resources, today, onClose }: Props) {
  const form = useForm<Values>({
    initialValues: {
      kind: 'closed',
      resourceId: '',
      firstDay: today,
      lastDay: today,
      from: '',
      until: '',
      note: '',
    },
  })
  const { kind } = form.values
  const add = useAction(ROUTES.addDayException, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  const whom = resources.filter((each) => each.active && (kind === 'absent' || each.kind === 'technician'))
  const submit = form.onSubmit(({ resourceId, from, until, ...body }) =>
    add.mutate({
      params: { shopId: shop.id },
      body: {
        ...body,
        resourceId: kind === 'closed' || resourceId === '' ? null : resourceId,
        from: from === '' ? null : from,
        until: until === '' ? null : until,
      },
    }),
  )
  return (
    <FormDialog
      title="Exception to the week"
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Add"
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <NativeSelect label="What" data={choicesOf(DAY_EXCEPTION)} {...form.getInputProps('kind')} />
      {kind !== 'closed' && (
        <NativeSelect
          label={kind === 'absent' ? 'Who is away, or what is out of use' : 'Who'}
          data={[
            { value: '', label: kind === 'absent' ? 'Choose…' : 'Everybody' },
            ...whom.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          {...form.getInputProps('resourceId')}
        />
      )}
      <TextInput label="First day" type="date" required {...form.getInputProps('firstDay')} />
      <TextInput label="Last day" type="date" required {...form.getInputProps('lastDay')} />
      <TextInput
        label="From"
        description={kind === 'overtime' ? `Clock of ${shop.name}` : 'Left empty: the whole day'}
        type="time"
        required={kind === 'overtime'}
        {...form.getInputProps('from')}
      />
      <TextInput label="Until" type="time" required={kind === 'overtime'} {...form.getInputProps('until')} />
      <TextInput label="Note" {...form.getInputProps('note')} />
    </FormDialog>
  )
}
