import { ROUTES } from '@clampclock/contracts'
import { Button, Modal } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { bondQueries } from '../../../api/queries/bonds.ts'
import type { Incident } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { ReasonDialog } from '../../../ui/reason-dialog.tsx'
import styles from '../job.module.css'

interface Props {
  readonly inspection: Incident['inspections'][number]
  readonly shopId: string
  readonly near: (at: string) => string
}

/** What was inspected, by whom and how; where a second person is asked for, the way to agree. */
export function InspectionLine({ inspection, shopId, near }: Props) {
  const may = useMay()
  const [looking, lookingSet] = useDisclosure()
  const [agreeing, agreeingSet] = useDisclosure()
  const { inspector, method, result, by, at, hasPhoto, waitsForSecondPerson } = inspection
  return (
    <div>
      <p>
        <strong>Inspected by {inspector}</strong>: {method}. {result} (recorded by {by}, {near(at)})
      </p>
      <div className={styles['buttons']}>
        {hasPhoto && (
          <Button variant="default" onClick={lookingSet.open}>
            Show the photo
          </Button>
        )}
        {waitsForSecondPerson && may('takeResponsibility', shopId) && (
          <Button variant="default" onClick={agreeingSet.open}>
            Agree as second person…
          </Button>
        )}
      </div>
      {waitsForSecondPerson && (
        <p className={styles['soft']}>
          Counts once a second person has agreed. Until then the vehicle stays.
        </p>
      )}
      {looking && <PhotoDialog inspection={inspection} onClose={lookingSet.close} />}
      {agreeing && <AgreementDialog inspection={inspection} onClose={agreeingSet.close} />}
    </div>
  )
}

interface DialogProps {
  readonly inspection: Props['inspection']
  readonly onClose: () => void
}

function PhotoDialog({ inspection, onClose }: DialogProps) {
  const { data, error } = useQuery(bondQueries.photo(inspection.id))
  return (
    <Modal opened onClose={onClose} title={`Photo of the inspection by ${inspection.inspector}`} size="lg">
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

function AgreementDialog({ inspection, onClose }: DialogProps) {
  const agree = useAction(ROUTES.agreeToInspection, {
    topics: ['bonds', 'repairs', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title="Agree to the inspection"
      reasonLabel="What did you look at yourself?"
      confirmLabel="Agree: the joint may be relied on"
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
