import { ROUTES } from '../../../api/contracts.ts'
import { MultiSelect, NativeSelect, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { accessQueries } from '../../../api/queries/access.ts'
import type { Resource } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { BAY_ATTRIBUTE, choicesOf, RESOURCE, SKILL } from '../../../lib/words.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Values {
  kind: Resource['kind']
  name: string
  capacity: number | string
  personId: string
  attributes: Resource['attributes']
  skills: Resource['skills']
}

interface Props {
  readonly shopId: string
  /** To change; a new one is added when left out. */
  readonly resource?: Resource
  readonly onClose: () => void
}

export function ResourceDialog({ shopId, resource, onClose }: Props) {
  const form = useForm<Values>({
    initialValues: {
      kind: resource?.kind ?? 'bay',
      name: resource?.name ?? '',
      capacity: 1,
      personId: '',
      attributes: resource?.attributes ?? [],
      skills: resource?.skills ?? [],
    },
  })
  const { kind } = form.values
  const people = useQuery({ ...accessQueries.people(), enabled: kind === 'technician' })
  const add = useAction(ROUTES.addResource, { topics: ['shops'], onDone: onClose })
  const edit = useAction(ROUTES.editResource, { topics: ['shops'], onDone: onClose })
  const error = add.error ?? edit.error
  const others = useFormReasons(form, error)
  const isPlace = kind === 'bay' || kind === 'oven'
  const submit = form.onSubmit(({ name, capacity, personId, attributes, skills }) => {
    const own = {
      ...(isPlace ? { attributes } : {}),
      ...(kind === 'technician' ? { skills } : {}),
    }
    if (resource) {
      edit.mutate({
        params: { resourceId: resource.id },
        ifMatch: resource.version,
        body: { name, ...own },
      })
      return
    }
    add.mutate({
      params: { shopId },
      body: {
        kind,
        name,
        capacity: kind === 'clampSet' ? Number(capacity) : 1,
        personId: kind === 'technician' && personId !== '' ? personId : null,
        ...own,
      },
    })
  })
  return (
    <FormDialog
      title={resource ? t('admin.change', { name: resource.name }) : t('admin.addToTheShop')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={resource ? t('admin.save') : t('admin.add')}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      {!resource && (
        <NativeSelect label={t('admin.kind')} data={choicesOf(RESOURCE)} {...form.getInputProps('kind')} />
      )}
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      {isPlace && (
        <MultiSelect
          label={t('admin.has')}
          data={choicesOf(BAY_ATTRIBUTE)}
          {...form.getInputProps('attributes')}
        />
      )}
      {kind === 'technician' && (
        <MultiSelect label={t('admin.canDo')} data={choicesOf(SKILL)} {...form.getInputProps('skills')} />
      )}
      {kind === 'clampSet' && !resource && (
        <NumberInput
          label={t('admin.howMany')}
          min={1}
          max={500}
          required
          {...form.getInputProps('capacity')}
        />
      )}
      {kind === 'technician' && !resource && (
        <NativeSelect
          label={t('admin.who')}
          data={[
            { value: '', label: t('admin.nobodyWhoSignsIn') },
            ...(people.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name })),
          ]}
          {...form.getInputProps('personId')}
        />
      )}
    </FormDialog>
  )
}
