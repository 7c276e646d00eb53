import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useState } from 'react'
import { Hand, LockOpen, Trash2 } from 'lucide-react'
import { useMay } from '../../../api/use-me.ts'
import type { Lot } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'

type Act = 'hold' | 'end' | 'scrap'

const TEXTS = {
  hold: {
    route: ROUTES.holdLot,
    title: (lot: string) => `Put lot ${lot} on hold`,
    reasonLabel: 'Why is it held?',
    confirmLabel: 'Hold in every shop',
    sentence: 'From this instant no bond may be started with it in any shop. Nothing overrides a hold.',
    isDanger: true,
  },
  end: {
    route: ROUTES.endLotHold,
    title: (lot: string) => `End the hold of lot ${lot}`,
    reasonLabel: 'Why may it be used again?',
    confirmLabel: 'End the hold',
    sentence: 'Its cartridges count again in every shop, as far as they are in date.',
    isDanger: false,
  },
  scrap: {
    route: ROUTES.scrapLot,
    title: (lot: string) => `Scrap lot ${lot}`,
    reasonLabel: 'Why is it scrapped?',
    confirmLabel: 'Discard all of it',
    sentence:
      'Every cartridge of it is discarded, in every shop, and what turns up later is never used. This is not undone; dispose of it as its safety data sheet says.',
    isDanger: true,
  },
} as const

/** Hold a lot in every shop at once; dispose of a held one: usable again, or scrap. */
export function LotHoldButton({ lot }: { readonly lot: Lot }) {
  const may = useMay()
  const [act, setAct] = useState<Act>()
  if (!may('handleStock') || lot.hold?.kind === 'scrapped') return null
  return (
    <>
      {lot.hold === null ? (
        <Button variant="default" leftSection={<Hand size={16} aria-hidden />} onClick={() => setAct('hold')}>
          Put on hold
        </Button>
      ) : (
        <>
          <Button
            variant="default"
            leftSection={<LockOpen size={16} aria-hidden />}
            onClick={() => setAct('end')}
          >
            End the hold
          </Button>
          <Button
            variant="default"
            leftSection={<Trash2 size={16} aria-hidden />}
            onClick={() => setAct('scrap')}
          >
            Scrap the lot
          </Button>
        </>
      )}
      {act !== undefined && <HoldDialog key={act} lot={lot} act={act} onClose={() => setAct(undefined)} />}
    </>
  )
}

interface DialogProps {
  readonly lot: Lot
  readonly act: Act
  readonly onClose: () => void
}

function HoldDialog({ lot, act, onClose }: DialogProps) {
  const { route, title, reasonLabel, confirmLabel, sentence, isDanger } = TEXTS[act]
  const change = useAction(route, { topics: ['stock', 'alerts'], onDone: onClose })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={title(lot.lotNumber)}
      reasonLabel={reasonLabel}
      confirmLabel={confirmLabel}
      isDanger={isDanger}
      isPending={change.isPending}
      error={change.error}
      onConfirm={(reason) => change.mutate({ params: { lotId: lot.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>{sentence}</p>
    </ReasonDialog>
  )
}
