import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import type { Incident } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { lazily } from '../../../ui/lazily.tsx'
import styles from '../job.module.css'
import { t } from '../../../lib/reader.ts'

const PhotoDialog = lazily(async () => (await import('./inspection-dialogs.tsx')).PhotoDialog)
const AgreementDialog = lazily(async () => (await import('./inspection-dialogs.tsx')).AgreementDialog)

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
        <strong>{t('job.inspectedBy', { inspector })}</strong>: {method}. {result} (
        {t('job.recordedBy', { by, at: near(at) })})
      </p>
      <div className={styles['buttons']}>
        {hasPhoto && (
          <Button variant="default" onClick={lookingSet.open}>
            {t('job.showThePhoto')}
          </Button>
        )}
        {waitsForSecondPerson && may('takeResponsibility', shopId) && (
          <Button variant="default" onClick={agreeingSet.open}>
            {t('job.agreeAsSecondPerson')}
          </Button>
        )}
      </div>
      {waitsForSecondPerson && <p className={styles['soft']}>{t('job.countsOnceASecondPersonHasAgreed')}</p>}
      {looking && <PhotoDialog inspection={inspection} onClose={lookingSet.close} />}
      {agreeing && <AgreementDialog inspection={inspection} onClose={agreeingSet.close} />}
    </div>
  )
}
