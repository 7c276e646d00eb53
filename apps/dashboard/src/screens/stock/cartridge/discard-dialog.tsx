import { ROUTES } from '../../../api/contracts.ts'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'

interface Props {
  readonly cartridge: Cartridge
  readonly onClose: () => void
}

export function DiscardDialog({ cartridge, onClose }: Props) {
  const discard = useAction(ROUTES.discardCartridge, { topics: ['stock', 'alerts'], onDone: onClose })
  return (
    <ReasonDialog
      opened
      title={`Discard ${cartridge.code}`}
      onClose={onClose}
      reasonLabel="Why is it discarded?"
      confirmLabel="Discard"
      isDanger
      isPending={discard.isPending}
      error={discard.error}
      onConfirm={(reason) => discard.mutate({ params: { cartridgeId: cartridge.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>
        {Math.round(cartridge.remainingMl)} mL of {cartridge.productName} leave the stock. This is not undone;
        dispose of it as its safety data sheet says.
      </p>
    </ReasonDialog>
  )
}
