import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState, type SubmitEvent } from 'react'
import { mayDo } from '../../api/permissions.ts'
import { accessQueries } from '../../api/queries/access.ts'
import type { Alert } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'
import { t } from '../../lib/reader.ts'

/** Names somebody else who takes care of an alert: whoever handles alerts in its shop. */
export function GiveDialog({ alert, onClose }: { readonly alert: Alert; readonly onClose: () => void }) {
  const people = useQuery(accessQueries.people()).data?.items ?? []
  const [personId, setPersonId] = useState('')
  const give = useAction(ROUTES.giveAlert, { topics: ['alerts'], onDone: onClose })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    give.mutate({ params: { alertId: alert.id }, body: { personId } })
  }
  const able = people.filter(
    (person) =>
      person.disabledAt === null &&
      person.id !== alert.owner?.id &&
      mayDo(person, 'handleAlerts', alert.shopId),
  )
  return (
    <FormDialog
      title={t('features.assignTo')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('features.giveIt')}
      isPending={give.isPending}
      error={give.error}
    >
      <p style={{ margin: 0 }}>{alert.message}</p>
      <NativeSelect
        label={t('features.assignTo')}
        required
        data-autofocus
        data={[
          { value: '', label: t('features.choose') },
          ...able.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        value={personId}
        onChange={(event) => setPersonId(event.currentTarget.value)}
      />
    </FormDialog>
  )
}
