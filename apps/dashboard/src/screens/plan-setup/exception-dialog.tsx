import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { DayException, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { choicesOf, DAY_EXCEPTION } from '../../lib/words.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'
import { t } from '../../lib/reader.ts'

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
      title={t('plan-setup.exceptionToTheWeek')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('plan-setup.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <NativeSelect
        label={t('plan-setup.what')}
        data={choicesOf(DAY_EXCEPTION)}
        {...form.getInputProps('kind')}
      />
      {kind !== 'closed' && (
        <NativeSelect
          label={kind === 'absent' ? t('plan-setup.whoIsAwayOrWhatIsOutOfUse') : t('plan-setup.who')}
          data={[
            { value: '', label: kind === 'absent' ? t('plan-setup.choose') : t('plan-setup.everybody') },
            ...whom.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          {...form.getInputProps('resourceId')}
        />
      )}
      <TextInput label={t('plan-setup.firstDay')} type="date" required {...form.getInputProps('firstDay')} />
      <TextInput label={t('plan-setup.lastDay')} type="date" required {...form.getInputProps('lastDay')} />
      <TextInput
        label={t('plan-setup.from')}
        description={
          kind === 'overtime'
            ? t('plan-setup.clockOf', { name: shop.name })
            : t('plan-setup.leftEmptyTheWholeDay')
        }
        type="time"
        required={kind === 'overtime'}
        {...form.getInputProps('from')}
      />
      <TextInput
        label={t('plan-setup.until')}
        type="time"
        required={kind === 'overtime'}
        {...form.getInputProps('until')}
      />
      <TextInput label={t('plan-setup.note')} {...form.getInputProps('note')} />
    </FormDialog>
  )
}
