import { ROUTES } from '../../../api/contracts.ts'
import { NativeSelect, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { Instrument, Shop } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { choicesOf, INSTRUMENT } from '../../../lib/words.ts'
import { TemperatureInput } from '../../../ui/fields/temperature-input.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { reader, t } from '../../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly onClose: () => void
}

interface Values {
  kind: Instrument['kind']
  name: string
  serialNumber: string
  accuracyC: number | undefined
  accuracyPercent: number | string
  calibratedUntil: string
}

export function InstrumentDialog({ shop, onClose }: Props) {
  const form = useForm<Values>({
    initialValues: {
      kind: 'metalProbe',
      name: '',
      serialNumber: '',
      accuracyC: undefined,
      accuracyPercent: '',
      calibratedUntil: '',
    },
  })
  const isHygrometer = form.values.kind === 'hygrometer'
  const add = useAction(ROUTES.addInstrument, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  const submit = form.onSubmit(({ kind, name, serialNumber, accuracyC, accuracyPercent, calibratedUntil }) =>
    add.mutate({
      params: { shopId: shop.id },
      body: {
        kind,
        name,
        serialNumber,
        accuracyC: isHygrometer ? null : (accuracyC ?? null),
        accuracyPercent: isHygrometer && accuracyPercent !== '' ? Number(accuracyPercent) : null,
        calibratedUntil: calibratedUntil === '' ? null : calibratedUntil,
      },
    }),
  )
  return (
    <FormDialog
      title={t('admin.addInstrument')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <NativeSelect label={t('admin.kind')} data={choicesOf(INSTRUMENT)} {...form.getInputProps('kind')} />
      <TextInput label={t('admin.name')} required data-autofocus {...form.getInputProps('name')} />
      <TextInput label={t('admin.serialNumber')} required {...form.getInputProps('serialNumber')} />
      {isHygrometer ? (
        <NumberInput
          label={t('admin.accuracyPlusOrMinus')}
          suffix=" %"
          min={0}
          hideControls
          required
          {...form.getInputProps('accuracyPercent')}
        />
      ) : (
        <TemperatureInput
          label={t('admin.accuracyPlusOrMinus')}
          unit={reader().temperature}
          isDifference
          required
          valueC={form.values.accuracyC}
          error={form.errors['accuracyC']}
          onChangeC={(value) => form.setFieldValue('accuracyC', value)}
        />
      )}
      <TextInput
        label={t('admin.calibratedUntil')}
        description={t('admin.theLastDayThatCountsEmptyNever')}
        type="date"
        {...form.getInputProps('calibratedUntil')}
      />
    </FormDialog>
  )
}
