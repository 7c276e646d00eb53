import { ROUTES } from '../../../api/contracts.ts'
import { NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQuery } from '@tanstack/react-query'
import { accessQueries } from '../../../api/queries/access.ts'
import type { Qualification } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { SAFETY_CLASS } from '../../../lib/words.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { t } from '../../../lib/reader.ts'

const CLASSES = (['S1', 'S2', 'S3'] as const).map((value) => ({ value, label: SAFETY_CLASS[value] }))

interface Values {
  personId: string
  safetyClass: Qualification['safetyClass']
  evidence: string
  issuedOn: string
  validUntil: string
}

export function QualificationDialog({ onClose }: { readonly onClose: () => void }) {
  const people = useQuery(accessQueries.people()).data?.items ?? []
  const form = useForm<Values>({
    initialValues: { personId: '', safetyClass: 'S2', evidence: '', issuedOn: '', validUntil: '' },
  })
  const add = useAction(ROUTES.addQualification, { topics: ['people'], onDone: onClose })
  const others = useFormReasons(form, add.error)
  return (
    <FormDialog
      title={t('admin.addQualification')}
      onClose={onClose}
      onSubmit={form.onSubmit(({ personId, ...body }) => add.mutate({ params: { personId }, body }))}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <NativeSelect
        label={t('admin.who')}
        required
        data={[
          { value: '', label: t('admin.choose') },
          ...people.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('personId')}
      />
      <NativeSelect
        label={t('admin.highestSafetyClass')}
        data={CLASSES}
        {...form.getInputProps('safetyClass')}
      />
      <TextInput
        label={t('admin.evidence')}
        description={t('admin.courseExaminerAndNumberOfThe')}
        required
        {...form.getInputProps('evidence')}
      />
      <TextInput label={t('admin.issuedOn')} type="date" required {...form.getInputProps('issuedOn')} />
      <TextInput
        label={t('admin.validUntil')}
        description={t('admin.theLastDayThatCounts')}
        type="date"
        required
        {...form.getInputProps('validUntil')}
      />
    </FormDialog>
  )
}
