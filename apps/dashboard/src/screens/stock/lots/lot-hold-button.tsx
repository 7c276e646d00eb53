import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useState } from 'react'
import { Hand, LockOpen, Trash2 } from 'lucide-react'
import { useMay } from '../../../api/use-me.ts'
import type { Lot } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

type Act = 'hold' | 'end' | 'scrap'

const TEXTS = {
  hold: {
    route: ROUTES.holdLot,
    title: (lot: string) => t('stock.putLotOnHold', { lot }),
    get reasonLabel() {
      return t('stock.whyIsItHeld')
    },
    get confirmLabel() {
      return t('stock.holdInEveryShop')
    },
    get sentence() {
      return t('stock.fromThisInstantNoBondMayBeStarted')
    },
    isDanger: true,
  },
  end: {
    route: ROUTES.endLotHold,
    title: (lot: string) => t('stock.endTheHoldOfLot', { lot }),
    get reasonLabel() {
      return t('stock.whyMayItBeUsedAgain')
    },
    get confirmLabel() {
      return t('stock.endTheHold')
    },
    get sentence() {
      return t('stock.itsCartridgesCountAgainInEveryShopAs')
    },
    isDanger: false,
  },
  scrap: {
    route: ROUTES.scrapLot,
    title: (lot: string) => t('stock.scrapLot', { lot }),
    get reasonLabel() {
      return t('stock.whyIsItScrapped')
    },
    get confirmLabel() {
      return t('stock.discardAllOfIt')
    },
    get sentence() {
      return t('stock.everyCartridgeOfItIsDiscardedInEvery')
    },
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
          {t('stock.putOnHold')}
        </Button>
      ) : (
        <>
          <Button
            variant="default"
            leftSection={<LockOpen size={16} aria-hidden />}
            onClick={() => setAct('end')}
          >
            {t('stock.endTheHold')}
          </Button>
          <Button
            variant="default"
            leftSection={<Trash2 size={16} aria-hidden />}
            onClick={() => setAct('scrap')}
          >
            {t('stock.scrapTheLot')}
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
