import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { OctagonX, Thermometer, Unlock } from 'lucide-react'
import { useRef, useState } from 'react'
import { aboutBond } from '../../api/acts/about-bond.ts'
import { happenedNow } from '../../api/client.ts'
import type { Bond } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import { ClampButton } from '../../features/bonds/clamp-button.tsx'
import { KeptMark } from '../../features/acts/kept-mark.tsx'
import { GateOutcome } from '../../features/bonds/gates/gate-outcome.tsx'
import { useBondGate } from '../../features/bonds/gates/use-gate.ts'
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
  const params = { bondId: bond.id }
  const release = useBondGate('releaseBond', { about: aboutBond(bond), topics: TOPICS, once: params })
  // Pressed again after silence they are off since the first press; after an answer it is another.
  const pressedAt = useRef<string>(undefined)
  const run = (overrides?: { code: string; reason: string }[]) => {
    pressedAt.current = release.error === null ? (pressedAt.current ?? happenedNow()) : happenedNow()
    const body = { at: pressedAt.current, ...(overrides === undefined ? {} : { overrides }) }
    release.run({ params, body })
  }
  if (release.waiting !== undefined) return <KeptMark act={release.waiting} />
  return (
    <>
      <Button
        size="lg"
        leftSection={<Unlock size={20} aria-hidden />}
        loading={release.isPending}
        onClick={() => run()}
      >
        {t('job.takeTheClampsOff')}
      </Button>
      <GateOutcome
        gate={release}
        title={t('job.releaseOfRefused', { jointName: bond.jointName })}
        goOnLabel={t('job.takeThemOffAnyway')}
        shopId={bond.shopId}
        onGoOn={run}
      />
    </>
  )
}
