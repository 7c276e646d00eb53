import { ROUTES } from '@clampclock/contracts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Grip, OctagonX, Thermometer, Unlock } from 'lucide-react'
import { happenedNow } from '../../api/client.ts'
import type { Bond } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { AbandonDialog } from './abandon-dialog.tsx'
import styles from './job.module.css'
import { ReadingDialog } from './reading-dialog.tsx'
import { ToldLaterDialog } from './told-later-dialog.tsx'

interface Props {
  readonly bond: Bond
  readonly clock: BondClock
}

/** The buttons at the bay side: the next step first and largest. */
export function BondActions({ bond, clock }: Props) {
  const may = useMay()
  const [reading, readingSet] = useDisclosure()
  const [abandoning, abandoningSet] = useDisclosure()
  const [telling, tellingSet] = useDisclosure()
  const topics = ['bonds', 'repairs', 'bookings', 'alerts'] as const
  const clamp = useAction(ROUTES.clampBond, { topics })
  const release = useAction(ROUTES.releaseBond, { topics })
  const params = { bondId: bond.id }
  const isOver = clock.phase === 'released' || clock.phase === 'abandoned'
  if (isOver || !may('makeBonds', bond.shopId)) return null
  return (
    <>
      <div className={styles['buttons']}>
        {bond.state === 'applied' && (
          <Button
            size="lg"
            leftSection={<Grip size={20} aria-hidden />}
            loading={clamp.isPending}
            onClick={() => clamp.mutate({ params, body: { at: happenedNow() } })}
          >
            Closed and clamped
          </Button>
        )}
        {clock.phase === 'ready' && (
          <Button
            size="lg"
            leftSection={<Unlock size={20} aria-hidden />}
            loading={release.isPending}
            onClick={() => release.mutate({ params, body: {} })}
          >
            Take the clamps off
          </Button>
        )}
        <Button
          variant="default"
          leftSection={<Thermometer size={18} aria-hidden />}
          onClick={readingSet.open}
        >
          Add panel temperature
        </Button>
        {clock.phase !== 'ready' && (
          <Button variant="default" onClick={tellingSet.open}>
            {bond.state === 'applied' ? 'Clamped earlier…' : 'Clamps are off already…'}
          </Button>
        )}
        <Button
          variant="default"
          leftSection={<OctagonX size={18} aria-hidden />}
          onClick={abandoningSet.open}
        >
          Abandon
        </Button>
      </div>
      <ProblemPanel error={clamp.error ?? release.error} />
      {reading && <ReadingDialog bond={bond} onClose={readingSet.close} />}
      {abandoning && <AbandonDialog bond={bond} onClose={abandoningSet.close} />}
      {telling && <ToldLaterDialog bond={bond} onClose={tellingSet.close} />}
    </>
  )
}
