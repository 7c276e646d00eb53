import { NativeSelect, Textarea } from '@mantine/core'
import { useState } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import { useAction } from '../../api/use-action.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'
import { t } from '../../lib/reader.ts'
import { keyOf, type Subject } from './subject.ts'

interface Props {
  readonly repairOrderId: string
  readonly subjects: readonly Subject[]
  readonly first: Subject
  readonly onClose: () => void
}

export function AddNote({ repairOrderId, subjects, first, onClose }: Props) {
  const [key, setKey] = useState(keyOf(first))
  const [text, setText] = useState('')
  const add = useAction(ROUTES.addNote, { topics: ['attachments'], onDone: onClose })
  const { jointId, bondId } = subjects.find((each) => keyOf(each) === key) ?? first
  return (
    <FormDialog
      title={t('attachments.addNote')}
      onClose={onClose}
      onSubmit={(event) => {
        event.preventDefault()
        add.mutate({ params: { repairOrderId }, body: { jointId, bondId, text } })
      }}
      submitLabel={t('attachments.keepNote')}
      isPending={add.isPending}
      error={add.error}
    >
      {subjects.length > 1 && (
        <NativeSelect
          label={t('attachments.of')}
          data={subjects.map((each) => ({ value: keyOf(each), label: each.label }))}
          value={key}
          onChange={(event) => setKey(event.currentTarget.value)}
        />
      )}
      <Textarea
        label={t('attachments.note')}
        description={t('attachments.noteHelp')}
        required
        maxLength={2000}
        autosize
        minRows={3}
        data-autofocus
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
    </FormDialog>
  )
}
