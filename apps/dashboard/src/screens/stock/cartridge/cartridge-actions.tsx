import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Link } from '@tanstack/react-router'
import { ArrowRightLeft, PackageOpen, PencilRuler, Scale, Trash2 } from 'lucide-react'
import { useState } from 'react'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import type { Cartridge } from '../../../api/types.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { QuarantineDialog } from './quarantine-dialog.tsx'
import { CorrectDialog } from './correct-dialog.tsx'
import { DiscardDialog } from './discard-dialog.tsx'
import { OpenDialog } from './open-dialog.tsx'
import { t } from '../../../lib/reader.ts'

/** What may be done with a cartridge in its state, by this person. */
export function CartridgeActions({ cartridge }: { readonly cartridge: Cartridge }) {
  const may = useMay()
  const [opening, openingSet] = useDisclosure()
  const [discarding, discardingSet] = useDisclosure()
  const [correcting, correctingSet] = useDisclosure()
  const [deciding, decidingSet] = useDisclosure()
  const isOnHand = cartridge.state === 'sealed' || cartridge.state === 'opened'
  const mayUse = may('useStock', cartridge.shopId)
  return (
    <>
      {cartridge.state === 'sealed' && cartridge.quarantine === null && mayUse && (
        <Button
          variant="default"
          leftSection={<PackageOpen size={16} aria-hidden />}
          onClick={openingSet.open}
        >
          {t('stock.openIt')}
        </Button>
      )}
      {cartridge.state === 'opened' && mayUse && <NewNozzle cartridge={cartridge} />}
      {cartridge.state === 'opened' && may('handleStock', cartridge.shopId) && (
        <Button
          variant="default"
          leftSection={<PencilRuler size={16} aria-hidden />}
          onClick={correctingSet.open}
        >
          {t('stock.correctContent')}
        </Button>
      )}
      {isOnHand && mayUse && (
        <Button variant="default" leftSection={<Trash2 size={16} aria-hidden />} onClick={discardingSet.open}>
          {t('stock.discard2')}
        </Button>
      )}
      {isOnHand && mayUse && (
        <Button
          variant="default"
          leftSection={<ArrowRightLeft size={16} aria-hidden />}
          renderRoot={(props) => <Link {...props} to="/stock/move" search={{ cartridge: cartridge.id }} />}
        >
          {t('stock.move')}
        </Button>
      )}
      {isOnHand && cartridge.quarantine !== null && may('handleStock', cartridge.shopId) && (
        <Button leftSection={<Scale size={16} aria-hidden />} onClick={decidingSet.open}>
          {t('stock.decide')}
        </Button>
      )}
      {deciding && <QuarantineDialog cartridge={cartridge} onClose={decidingSet.close} />}
      {opening && <OpenDialog cartridge={cartridge} onClose={openingSet.close} />}
      {discarding && <DiscardDialog cartridge={cartridge} onClose={discardingSet.close} />}
      {correcting && <CorrectDialog cartridge={cartridge} onClose={correctingSet.close} />}
    </>
  )
}

function NewNozzle({ cartridge }: { readonly cartridge: Cartridge }) {
  const [done, setDone] = useState(0)
  const change = useAction(ROUTES.changeNozzle, {
    topics: ['stock'],
    onDone: () => setDone((count) => count + 1),
  })
  return (
    <AskOnceMore
      key={done}
      label={t('stock.newNozzle')}
      sentence={t('stock.whatItTakesToFillItIsBookedAsUsed')}
      yes={t('stock.itIsOn')}
      no={t('stock.back')}
      isHarmless
      isPending={change.isPending}
      error={change.error}
      onYes={() => change.mutate({ params: { cartridgeId: cartridge.id }, body: {} })}
    />
  )
}
