import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { OctagonX, Thermometer, Unlock } from 'lucide-react'
import { useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import { ClampButton } from '../../features/bonds/clamp-button.tsx'
import { GateOutcome } from '../../features/bonds/gates/gate-outcome.tsx'
import { useGate } from '../../features/bonds/gates/use-gate.ts'
import styles from './job.module.css'
import { lazily } from '../../ui/lazily.tsx'
import { t, withWords } from '../../lib/reader.ts'

const ToldLaterDialog = lazily(async () => (await import('./told-later-dialog.tsx')).ToldLaterDialog)

const ReadingDialog = lazily(async () => (await import('./reading-dialog.tsx')).ReadingDialog)

const AbandonDialog = lazily(async () => (await import('./abandon-dialog.tsx')).AbandonDialog)

const after = () => withWords(import('../../features/bonds/after/after-parts.tsx'), 'start-bond')

const SlipButtons = lazily(async () => (await after()).SlipButtons)

const LiftedDialog = lazily(async () => (await after()).LiftedDialog)

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
  // At the instant of the press; its dialog goes on to the next attempt once this one is over.
  const [liftedAt, setLiftedAt] = useState<string>()
  const isOver = clock.phase === 'released' || clock.phase === 'abandoned'
  if (!may('makeBonds', bond.shopId)) return null
  return (
    <>
      {liftedAt !== undefined && (
        <LiftedDialog bond={bond} at={liftedAt} onClose={() => setLiftedAt(undefined)} />
      )}
      {!isOver && (
        <div className={styles['buttons']}>
          {bond.state === 'applied' && <ClampButton bond={bond} />}
          {mayRelease && <ReleaseButton bond={bond} />}
          <Button
            variant="default"
            leftSection={<Thermometer size={18} aria-hidden />}
            onClick={readingSet.open}
          >
            {t('job.addPanelTemperature')}
          </Button>
          {!mayRelease && (
            <Button variant="default" onClick={tellingSet.open}>
              {bond.state === 'applied' ? t('job.clampedEarlier') : t('job.clampsAreOffAlready')}
            </Button>
          )}
          <Button
            variant="default"
            leftSection={<OctagonX size={18} aria-hidden />}
            onClick={abandoningSet.open}
          >
            {t('job.abandon')}
          </Button>
          {/* Last, so that no other button moves when they come. Cured through, nothing slides and nothing lifts. */}
          {!mayRelease && <SlipButtons bond={bond} onLift={setLiftedAt} />}
        </div>
      )}
      {reading && <ReadingDialog bond={bond} onClose={readingSet.close} />}
      {abandoning && <AbandonDialog bond={bond} onClose={abandoningSet.close} />}
      {telling && <ToldLaterDialog bond={bond} onClose={tellingSet.close} />}
    </>
  )
}

const TOPICS = ['bonds', 'repairs', 'bookings', 'alerts'] as const

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
        {t('job.takeTheClampsOff')}
      </Button>
      <GateOutcome
        gate={release}
        title={t('job.releaseOfRefused', { jointName: bond.jointName })}
        goOnLabel={t('job.takeThemOffAnyway')}
        shopId={bond.shopId}
        onGoOn={(overrides) => release.run({ params, body: { overrides } })}
      />
    </>
  )
}
