import { formatVolume } from '../../../lib/measures.ts'
import { ROUTES } from '../../../api/contracts.ts'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly cartridge: Cartridge
  readonly onClose: () => void
}

export function DiscardDialog({ cartridge, onClose }: Props) {
  const discard = useAction(ROUTES.discardCartridge, { topics: ['stock', 'alerts'], onDone: onClose })
  return (
    <ReasonDialog
      opened
      title={t('stock.discard', { code: cartridge.code })}
      onClose={onClose}
      reasonLabel={t('stock.whyIsItDiscarded')}
      confirmLabel={t('stock.discard2')}
      isDanger
      isPending={discard.isPending}
      error={discard.error}
      onConfirm={(reason) => discard.mutate({ params: { cartridgeId: cartridge.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>
        {t('stock.leaveTheStockThisIsNotUndone', {
          content: formatVolume(cartridge.remainingMl),
          productName: cartridge.productName,
        })}
      </p>
    </ReasonDialog>
  )
}
