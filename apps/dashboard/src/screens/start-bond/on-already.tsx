import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import styles from './start-bond.module.css'

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
        It is on already: record it…
      </Button>
      {opened && (
        <ReasonDialog
          opened
          onClose={close}
          title="The adhesive is on although a gate refuses"
          reasonLabel="What happened, and why?"
          confirmLabel="Record that it is on"
          isDanger
          isPending={isPending}
          error={isPending ? null : error}
          onConfirm={onRecord}
        >
          <p style={{ margin: 0 }}>
            The clocks run and the adhesive is booked, but the joint does not become ready: the vehicle stays
            until somebody entitled has inspected it or had it made again.
            {since !== undefined && ` It is recorded as on since ${since}, when you first pressed.`}
          </p>
        </ReasonDialog>
      )}
    </div>
  )
}
