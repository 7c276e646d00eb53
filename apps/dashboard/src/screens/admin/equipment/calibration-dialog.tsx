import { ROUTES } from '../../../api/contracts.ts'
import { TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { Instrument } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly instrument: Instrument
  readonly onClose: () => void
}

/** A new calibration; readings taken before keep the one that held then. */
export function CalibrationDialog({ instrument, onClose }: Props) {
  const form = useForm({
    initialValues: { name: instrument.name, calibratedUntil: instrument.calibratedUntil ?? '' },
  })
  const edit = useAction(ROUTES.editInstrument, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, edit.error)
  const submit = form.onSubmit(({ name, calibratedUntil }) =>
    edit.mutate({
      params: { instrumentId: instrument.id },
      ifMatch: instrument.version,
      body: { name, calibratedUntil: calibratedUntil === '' ? null : calibratedUntil },
    }),
  )
  return (
    <FormDialog
      title={t('admin.calibrationOf', { name: instrument.name })}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.save')}
      isPending={edit.isPending}
      error={edit.error}
      reasons={others}
    >
      <TextInput label={t('admin.name')} required {...form.getInputProps('name')} />
      <TextInput
        label={t('admin.calibratedUntil')}
        description={t('admin.theLastDayThatCountsReadingsTaken')}
        type="date"
        data-autofocus
        {...form.getInputProps('calibratedUntil')}
      />
    </FormDialog>
  )
}
