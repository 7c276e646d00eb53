import { ROUTES } from '../../../api/contracts.ts'
import { NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { Resource, Shop } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { TemperatureInput } from '../../../ui/fields/temperature-input.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { reader, t } from '../../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
  readonly locations: readonly { readonly id: string; readonly name: string }[]
  readonly onClose: () => void
}

const KINDS = [
  {
    value: 'bay',
    get label() {
      return t('admin.inABayOrOven')
    },
  },
  {
    value: 'storage',
    get label() {
      return t('admin.inAStorageLocation')
    },
  },
]

export function SensorDialog({ shop, resources, locations, onClose }: Props) {
  const form = useForm({
    initialValues: {
      name: '',
      place: 'bay' as 'bay' | 'storage',
      where: '',
      accuracyC: 1 as number | undefined,
      calibratedUntil: '',
    },
  })
  const { place } = form.values
  const add = useAction(ROUTES.addSensor, { topics: ['temperature', 'shops'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  const places =
    place === 'bay' ? resources.filter(({ kind }) => kind === 'bay' || kind === 'oven') : locations
  const submit = form.onSubmit(({ name, where, accuracyC, calibratedUntil }) =>
    add.mutate({
      params: { shopId: shop.id },
      body: {
        name,
        place,
        resourceId: place === 'bay' ? where : null,
        locationId: place === 'storage' ? where : null,
        accuracyC: accuracyC ?? Number.NaN,
        calibratedUntil: calibratedUntil === '' ? null : calibratedUntil,
      },
    }),
  )
  return (
    <FormDialog
      title={t('admin.addThermometer')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      <NativeSelect label={t('admin.measures')} data={KINDS} {...form.getInputProps('place')} />
      <NativeSelect
        label={t('admin.where')}
        required
        data={[
          { value: '', label: t('admin.choose') },
          ...places.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('where')}
      />
      <TemperatureInput
        label={t('admin.accuracyPlusOrMinus')}
        unit={reader().temperature}
        isDifference
        required
        valueC={form.values.accuracyC}
        error={form.errors['accuracyC']}
        onChangeC={(value) => form.setFieldValue('accuracyC', value)}
      />
      <TextInput label={t('admin.calibratedUntil')} type="date" {...form.getInputProps('calibratedUntil')} />
    </FormDialog>
  )
}
