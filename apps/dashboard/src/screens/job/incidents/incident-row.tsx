import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Help } from '../../../ui/help/help.tsx'
import type { Incident } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { formatNear } from '../../../lib/instants.ts'
import { INCIDENT } from '../../../lib/words.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { percentOf } from '../../../ui/answers/percent.ts'
import styles from '../job.module.css'
import { InspectionLine } from './inspection-line.tsx'
import { lazily } from '../../../ui/lazily.tsx'
import { t } from '../../../lib/reader.ts'

const DispositionDialog = lazily(async () => (await import('./disposition-dialog.tsx')).DispositionDialog)

interface Props {
  readonly incident: Incident
  readonly shopId: string
  readonly nowMs: number
  readonly zone: string
}

const DISPOSITION = {
  get inspectedAndAccepted() {
    return t('job.inspectedAndAccepted')
  },
  get redone() {
    return t('job.toBeMadeAgain')
  },
} as const

/** What departed from the rules; open until somebody entitled disposes of it, kept for ever. */
export function IncidentRow({ incident, shopId, nowMs, zone }: Props) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  const { disposition, inspections } = incident
  const near = (at: string) => formatNear(at, zone, nowMs)
  // Who overrode a gate answered for it then.
  const isOpen = disposition === null && incident.kind !== 'gateOverridden'
  return (
    <div className={`${styles['incident']} ${isOpen ? '' : styles['closed']}`}>
      <div>
        <Mark tone={isOpen ? 'danger' : 'quiet'}>{INCIDENT[incident.kind]}</Mark>
        <Help of="incident" name={INCIDENT[incident.kind]} />
      </div>
      <p>
        {incident.reason} ({incident.by}, {near(incident.at)}
        {incident.fractionReached !== null &&
          `, ${t('job.atOfHandlingStrength', { fractionReached: percentOf(incident.fractionReached) })}`}
        )
      </p>
      {inspections.map((inspection) => (
        <InspectionLine key={inspection.id} inspection={inspection} shopId={shopId} near={near} />
      ))}
      {isOpen &&
        (may('takeResponsibility', shopId) ? (
          <Button variant="default" onClick={open}>
            {t('job.decide')}
          </Button>
        ) : (
          <p className={styles['soft']}>{t('job.openAnOwnerOrSchedulerDecides')}</p>
        ))}
      {disposition !== null && (
        <p>
          <strong>{DISPOSITION[disposition.kind]}</strong>: {disposition.reason} ({disposition.by},{' '}
          {near(disposition.at)})
        </p>
      )}
      {opened && <DispositionDialog incident={incident} zone={zone} onClose={close} />}
    </div>
  )
}
