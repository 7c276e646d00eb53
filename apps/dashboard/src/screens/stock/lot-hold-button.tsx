import { ROUTES } from '@clampclock/contracts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Hand, LockOpen } from 'lucide-react'
import { useMay } from '../../api/use-me.ts'
import type { Lot } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { ReasonDialog } from '../../ui/reason-dialog.tsx'

/** Hold a lot in every shop at once, or end the hold. */
export function LotHoldButton({ lot }: { readonly lot: Lot }) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  const isHeld = lot.hold !== null
  const change = useAction(isHeld ? ROUTES.endLotHold : ROUTES.holdLot, {
    topics: ['stock', 'alerts'],
    onDone: close,
  })
  if (!may('handleStock')) return null
  return (
    <>
      <Button
        variant="default"
        leftSection={isHeld ? <LockOpen size={16} aria-hidden /> : <Hand size={16} aria-hidden />}
        onClick={open}
      >
        {isHeld ? 'End the hold' : 'Put on hold'}
      </Button>
      {opened && (
        <ReasonDialog
          opened
          onClose={close}
          title={isHeld ? `End the hold of lot ${lot.lotNumber}` : `Put lot ${lot.lotNumber} on hold`}
          reasonLabel={isHeld ? 'Why may it be used again?' : 'Why is it held?'}
          confirmLabel={isHeld ? 'End the hold' : 'Hold in every shop'}
          isDanger={!isHeld}
          isPending={change.isPending}
          error={change.error}
          onConfirm={(reason) => change.mutate({ params: { lotId: lot.id }, body: { reason } })}
        >
          <p style={{ margin: 0 }}>
            {isHeld
              ? 'Its cartridges count again in every shop, as far as they are in date.'
              : 'From this instant no bond may be started with it in any shop. Nothing overrides a hold.'}
          </p>
        </ReasonDialog>
      )}
    </>
  )
}
