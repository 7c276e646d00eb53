import { Checkbox } from '@mantine/core'
import { useState } from 'react'
import type { Plan } from '../../api/types.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'
import { OrderNames } from './order-names.tsx'
import { dropped } from './plan-figures.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly orders: Plan['leftOut']
  readonly isPending: boolean
  readonly error: Error | null
  readonly onClose: () => void
  readonly onConfirm: (ids: string[]) => void
}

/** Publishing drops vehicles: their names are read before it happens, and what was read is what is confirmed. */
export function PublishDialog({ orders, isPending, error, onClose, onConfirm }: Props) {
  const [shown] = useState(orders)
  const [isSure, setSure] = useState(false)
  return (
    <FormDialog
      title={t('plan.publishWith', { shown: dropped(shown.length) })}
      onClose={onClose}
      onSubmit={(event) => {
        event.preventDefault()
        onConfirm(shown.map(({ id }) => id))
      }}
      submitLabel={t('plan.publishWithoutThem')}
      isPending={isPending}
      error={error}
      isClosed={!isSure}
    >
      <div>
        {t('plan.nothingIsPlannedForAndBookingsAreLost')}
        <OrderNames orders={shown} />
      </div>
      <Checkbox
        label={t('plan.iHaveReadTheNamesTheseVehiclesAre')}
        checked={isSure}
        onChange={(event) => setSure(event.currentTarget.checked)}
      />
    </FormDialog>
  )
}
