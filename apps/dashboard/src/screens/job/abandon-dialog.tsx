import { ROUTES } from '../../api/contracts.ts'
import { Checkbox } from '@mantine/core'
import { useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

export function AbandonDialog({ bond, onClose }: Props) {
  const [wasLifted, setWasLifted] = useState(false)
  const abandon = useAction(ROUTES.abandonBond, {
    topics: ['bonds', 'repairs', 'bookings', 'alerts'],
    onDone: onClose,
  })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={`Abandon attempt ${bond.attempt} at ${bond.jointName}`}
      reasonLabel="Why is this attempt over?"
      confirmLabel="Abandon this attempt"
      isDanger
      isPending={abandon.isPending}
      error={abandon.error}
      onConfirm={(reason) => abandon.mutate({ params: { bondId: bond.id }, body: { reason, wasLifted } })}
    >
      <p style={{ margin: 0 }}>
        Scrape both sides and start again: the clock starts anew with the next attempt. Until then the vehicle
        stays: there is adhesive on it.
      </p>
      <Checkbox
        label="The panels were lifted apart"
        checked={wasLifted}
        onChange={(event) => setWasLifted(event.currentTarget.checked)}
      />
    </ReasonDialog>
  )
}
