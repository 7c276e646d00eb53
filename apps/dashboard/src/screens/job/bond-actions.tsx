import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { Grip, OctagonX, Thermometer, Unlock } from 'lucide-react'
import { useRef } from 'react'
import { happenedNow } from '../../api/client.ts'
import type { Bond } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import { GateOutcome } from '../../features/bonds/gates/gate-outcome.tsx'
import { useGate } from '../../features/bonds/gates/use-gate.ts'
import styles from './job.module.css'
import { lazily } from '../../ui/lazily.tsx'

const ToldLaterDialog = lazily(async () => (await import('./told-later-dialog.tsx')).ToldLaterDialog)

const ReadingDialog = lazily(async () => (await import('./reading-dialog.tsx')).ReadingDialog)

const AbandonDialog = lazily(async () => (await import('./abandon-dialog.tsx')).AbandonDialog)

interface Props {
  readonly bond: Bond
  readonly clock: BondClock
  /** The service has said of late that it is through. */
  readonly mayRelease: boolean
}

/** The buttons at the bay side: the next step first and largest. */
export function BondActions({ bond, clock, mayRelease }: Props) {
  const may = useMay()
  const [reading, readingSet] = useDisclosure()
  const [abandoning, abandoningSet] = useDisclosure()
  const [telling, tellingSet] = useDisclosure()
  const isOver = clock.phase === 'released' || clock.phase === 'abandoned'
  if (isOver || !may('makeBonds', bond.shopId)) return null
  return (
    <>
      <div className={styles['buttons']}>
        {bond.state === 'applied' && <ClampButton bond={bond} />}
        {mayRelease && <ReleaseButton bond={bond} />}
        <Button
          variant="default"
          leftSection={<Thermometer size={18} aria-hidden />}
          onClick={readingSet.open}
        >
          Add panel temperature
        </Button>
        {!mayRelease && (
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
      {reading && <ReadingDialog bond={bond} onClose={readingSet.close} />}
      {abandoning && <AbandonDialog bond={bond} onClose={abandoningSet.close} />}
      {telling && <ToldLaterDialog bond={bond} onClose={tellingSet.close} />}
    </>
  )
}

const TOPICS = ['bonds', 'repairs', 'bookings', 'alerts'] as const

function ClampButton({ bond }: { readonly bond: Bond }) {
  const clamp = useGate(ROUTES.clampBond, { topics: TOPICS })
  // The joint was closed when the button was pressed, however long it takes to write the reasons.
  const pressedAt = useRef<string>(undefined)
  const params = { bondId: bond.id }
  // Pressed again after silence it is the same act: the joint has been closed since the first press.
  const press = () => {
    pressedAt.current ??= happenedNow()
    clamp.run({ params, body: { at: pressedAt.current } })
  }
  return (
    <>
      <Button
        size="lg"
        leftSection={<Grip size={20} aria-hidden />}
        loading={clamp.isPending}
        onClick={press}
      >
        Closed and clamped
      </Button>
      <GateOutcome
        gate={clamp}
        title={`Clamping of ${bond.jointName} refused`}
        goOnLabel="Record it anyway"
        shopId={bond.shopId}
        onGoOn={(overrides) =>
          clamp.run({ params, body: { at: (pressedAt.current ??= happenedNow()), overrides } })
        }
      />
    </>
  )
}

function ReleaseButton({ bond }: { readonly bond: Bond }) {
  const release = useGate(ROUTES.releaseBond, { topics: TOPICS })
  const params = { bondId: bond.id }
  return (
    <>
      <Button
        size="lg"
        leftSection={<Unlock size={20} aria-hidden />}
        loading={release.isPending}
        onClick={() => release.run({ params, body: {} })}
      >
        Take the clamps off
      </Button>
      <GateOutcome
        gate={release}
        title={`Release of ${bond.jointName} refused`}
        goOnLabel="Take them off anyway"
        shopId={bond.shopId}
        onGoOn={(overrides) => release.run({ params, body: { overrides } })}
      />
    </>
  )
}
