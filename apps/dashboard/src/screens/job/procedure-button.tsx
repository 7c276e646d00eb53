import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { FileText } from 'lucide-react'
import type { Joint } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { lazily } from '../../ui/lazily.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './job.module.css'
import { t } from '../../lib/reader.ts'

const ProcedureDialog = lazily(async () => (await import('./procedure-dialog.tsx')).ProcedureDialog)

interface Props {
  readonly joint: Joint
  readonly shopId: string
}

/** Which document of the vehicle maker the joint is made by. */
export function ProcedureButton({ joint, shopId }: Props) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  // Without one no bond can be started.
  const isAsked = joint.procedure === null
  if (!may('makeBonds', shopId))
    return isAsked ? <Mark tone="warning">{t('job.noProcedureRecorded')}</Mark> : null
  return (
    <div className={styles['buttons']}>
      {isAsked && <Mark tone="warning">{t('job.noProcedureRecordedNoBondCanBe')}</Mark>}
      <Button variant="default" leftSection={<FileText size={16} aria-hidden />} onClick={open}>
        {isAsked ? t('job.recordTheProcedure') : t('job.changeTheProcedure')}
      </Button>
      {opened && <ProcedureDialog joint={joint} shopId={shopId} onClose={close} />}
    </div>
  )
}
