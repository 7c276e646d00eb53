import { VolumeInput } from '../../../ui/fields/measure-input.tsx'
import { ROUTES } from '../../../api/contracts.ts'
import { useState } from 'react'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly cartridge: Cartridge
  readonly onClose: () => void
}

export function CorrectDialog({ cartridge, onClose }: Props) {
  const [remainingMl, setRemainingMl] = useState<number | string>(Math.round(cartridge.remainingMl))
  const correct = useAction(ROUTES.correctCartridge, { topics: ['stock'], onDone: onClose })
  return (
    <ReasonDialog
      opened
      title={t('stock.correctWhatHolds', { code: cartridge.code })}
      onClose={onClose}
      reasonLabel={t('stock.whyDoesTheRecordDiffer')}
      confirmLabel={t('stock.recordCorrection')}
      isPending={correct.isPending}
      error={correct.error}
      onConfirm={(reason) =>
        correct.mutate({
          params: { cartridgeId: cartridge.id },
          body: { remainingMl: Number(remainingMl), reason },
        })
      }
    >
      <VolumeInput
        label={t('stock.remainingContent')}
        min={0}
        max={5000}
        required
        value={remainingMl}
        onChange={setRemainingMl}
      />
    </ReasonDialog>
  )
}
