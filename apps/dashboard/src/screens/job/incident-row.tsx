import { ROUTES } from '@clampclock/contracts'
import { Button, Radio, Stack } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useState } from 'react'
import type { Incident } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { formatNear } from '../../lib/instants.ts'
import { INCIDENT } from '../../lib/words.ts'
import { Mark } from '../../ui/mark.tsx'
import { percentOf } from '../../ui/percent.ts'
import { ReasonDialog } from '../../ui/reason-dialog.tsx'
import styles from './job.module.css'

interface Props {
  readonly incident: Incident
  readonly shopId: string
  readonly nowMs: number
  readonly zone: string
}

const DISPOSITION = { inspectedAndAccepted: 'Inspected and accepted', redone: 'Redone' } as const

/** What departed from the rules; open until somebody entitled disposes of it, kept for ever. */
export function IncidentRow({ incident, shopId, nowMs, zone }: Props) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  const { disposition } = incident
  const near = (at: string) => formatNear(at, zone, nowMs)
  return (
    <div className={`${styles['incident']} ${disposition === null ? '' : styles['closed']}`}>
      <Mark tone={disposition === null ? 'danger' : 'quiet'}>{INCIDENT[incident.kind]}</Mark>
      <p>
        {incident.reason} ({incident.by}, {near(incident.at)}
        {incident.fractionReached !== null &&
          `, at ${percentOf(incident.fractionReached)} % of handling strength`}
        )
      </p>
      {disposition === null ? (
        may('takeResponsibility', shopId) ? (
          <Button variant="default" onClick={open}>
            Dispose of it…
          </Button>
        ) : (
          <p className={styles['soft']}>Open: an owner or scheduler disposes of it.</p>
        )
      ) : (
        <p>
          <strong>{DISPOSITION[disposition.kind]}</strong>: {disposition.reason} ({disposition.by},{' '}
          {near(disposition.at)})
        </p>
      )}
      {opened && <DispositionDialog incident={incident} onClose={close} />}
    </div>
  )
}

interface DialogProps {
  readonly incident: Incident
  readonly onClose: () => void
}

function DispositionDialog({ incident, onClose }: DialogProps) {
  const [kind, setKind] = useState<keyof typeof DISPOSITION>('inspectedAndAccepted')
  const dispose = useAction(ROUTES.disposeIncident, {
    topics: ['bonds', 'repairs', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={INCIDENT[incident.kind]}
      reasonLabel="What was found, and by whom?"
      confirmLabel="Record the disposition"
      isPending={dispose.isPending}
      error={dispose.error}
      onConfirm={(reason) => dispose.mutate({ params: { incidentId: incident.id }, body: { kind, reason } })}
    >
      <Radio.Group
        label="Disposition"
        value={kind}
        onChange={(value) => setKind(value as keyof typeof DISPOSITION)}
      >
        <Stack gap="xs" mt="xs">
          <Radio value="inspectedAndAccepted" label={DISPOSITION.inspectedAndAccepted} />
          <Radio value="redone" label={DISPOSITION.redone} />
        </Stack>
      </Radio.Group>
    </ReasonDialog>
  )
}
