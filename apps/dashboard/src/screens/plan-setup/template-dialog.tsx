import { ROUTES } from '@clampclock/contracts'
import { NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { RepairTemplate } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { FormDialog } from '../admin/form-dialog.tsx'

interface Props {
  readonly shopId: string
  readonly template: RepairTemplate
  readonly onClose: () => void
}

/** The minutes of each step. A cure has none: the data sheet and the forecast say how long it takes. */
export function TemplateDialog({ shopId, template, onClose }: Props) {
  const form = useForm({
    initialValues: {
      name: template.name,
      steps: template.steps.map(({ workMinutes }) => ({
        workMinutes: workMinutes as number | string | null,
      })),
    },
  })
  const set = useAction(ROUTES.setRepairTemplate, { topics: ['shops'], onDone: onClose })
  const others = useFormReasons(form, set.error)
  const submit = form.onSubmit(({ name, steps }) =>
    set.mutate({
      params: { shopId, key: template.key },
      body: {
        name,
        steps: template.steps.map((step, i) => ({
          ...step,
          workMinutes: step.workMinutes === null ? null : Number(steps[i]?.workMinutes),
        })),
      },
    }),
  )
  return (
    <FormDialog
      title={`Template ${template.name}`}
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Save as ours"
      isPending={set.isPending}
      error={set.error}
      reasons={others}
    >
      <TextInput label="Name" required {...form.getInputProps('name')} />
      {template.steps.map(({ name, workMinutes, technicians }, i) =>
        workMinutes === null ? null : (
          <NumberInput
            // oxlint-disable-next-line react/no-array-index-key -- steps are told apart by their place alone
            key={i}
            label={`${name}, minutes`}
            description={technicians > 1 ? `${technicians} technicians` : undefined}
            min={1}
            max={10_080}
            required
            {...form.getInputProps(`steps.${i}.workMinutes`)}
          />
        ),
      )}
    </FormDialog>
  )
}
