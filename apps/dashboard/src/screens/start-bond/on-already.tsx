import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import styles from './start-bond.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly isPending: boolean
  readonly error: Error | null
  /** On the shop's clock: when it was first said to be on. */
  readonly since: string | undefined
  readonly onRecord: (happened: string) => void
}

/** A gate refuses, and the adhesive is on all the same: what happened is recorded, and the vehicle held for it. */
export function OnAlready({ isPending, error, since, onRecord }: Props) {
  const [opened, { open, close }] = useDisclosure()
  return (
    <div className={styles['result']}>
      <Button variant="default" onClick={open}>
        {t('start-bond.itIsOnAlreadyRecordIt')}
      </Button>
      {opened && (
        <ReasonDialog
          opened
          onClose={close}
          title={t('start-bond.theAdhesiveIsOnAlthoughAGateRefuses')}
          reasonLabel={t('start-bond.whatHappenedAndWhy')}
          confirmLabel={t('start-bond.recordThatItIsOn')}
          isDanger
          isPending={isPending}
          error={isPending ? null : error}
          onConfirm={onRecord}
        >
          <p style={{ margin: 0 }}>
            {t('start-bond.theClocksRunButTheJointDoesNotBecomeReady')}{' '}
            {since !== undefined && t('start-bond.itIsRecordedAsOnSinceWhenYouFirst', { since })}
          </p>
        </ReasonDialog>
      )}
    </div>
  )
}
