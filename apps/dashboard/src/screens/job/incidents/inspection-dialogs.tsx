import { Modal } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { ROUTES } from '../../../api/contracts.ts'
import { bondQueries } from '../../../api/queries/bonds.ts'
import type { Incident } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface DialogProps {
  readonly inspection: Incident['inspections'][number]
  readonly onClose: () => void
}

/** The photo that was taken. */
export function PhotoDialog({ inspection, onClose }: DialogProps) {
  const { data, error } = useQuery(bondQueries.photo(inspection.id))
  return (
    <Modal
      opened
      onClose={onClose}
      title={t('job.photoOfTheInspectionBy', { inspector: inspection.inspector })}
      size="lg"
    >
      {error !== null && <p role="alert">{error.message}</p>}
      {data !== undefined && (
        <img
          src={`data:${data.mediaType};base64,${data.base64}`}
          alt={`${inspection.method}: ${inspection.result}`}
          style={{ maxWidth: '100%' }}
        />
      )}
    </Modal>
  )
}

/** A second person says what he looked at. */
export function AgreementDialog({ inspection, onClose }: DialogProps) {
  const agree = useAction(ROUTES.agreeToInspection, {
    topics: ['bonds', 'repairs', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={t('job.agreeToTheInspection')}
      reasonLabel={t('job.whatDidYouLookAtYourself')}
      confirmLabel={t('job.agreeTheJointMayBeReliedOn')}
      isPending={agree.isPending}
      error={agree.error}
      onConfirm={(reason) => agree.mutate({ params: { inspectionId: inspection.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>
        {inspection.inspector}: {inspection.method}. {inspection.result}
      </p>
    </ReasonDialog>
  )
}
