import { Button } from '@mantine/core'
import { Grip } from 'lucide-react'
import { useRef } from 'react'
import { aboutBond } from '../../api/acts/about-bond.ts'
import { happenedNow } from '../../api/client.ts'
import type { Bond } from '../../api/types.ts'
import { KeptMark } from '../acts/kept-mark.tsx'
import { GateOutcome } from './gates/gate-outcome.tsx'
import { useBondGate } from './gates/use-gate.ts'
import { t } from '../../lib/reader.ts'

const TOPICS = ['bonds', 'repairs', 'bookings', 'alerts'] as const

interface Props {
  readonly bond: Bond
}

/**
 * The joint is closed and under its clamps: recorded as of the press, however often it must be sent. A press is of one bond:
 * where another takes its place on the screen, what was pressed before is not its own.
 */
export function ClampButton({ bond }: Props) {
  return <Press key={bond.id} bond={bond} />
}

function Press({ bond }: Props) {
  const params = { bondId: bond.id }
  const clamp = useBondGate('clampBond', { about: aboutBond(bond), topics: TOPICS, once: params })
  // The joint was closed when the button was pressed, however long it takes to write the reasons.
  const pressedAt = useRef<string>(undefined)
  // Pressed again after silence it is the same act: the joint has been closed since the first press.
  const press = () => {
    pressedAt.current ??= happenedNow()
    clamp.run({ params, body: { at: pressedAt.current } })
  }
  if (clamp.waiting !== undefined) return <KeptMark act={clamp.waiting} />
  return (
    <>
      <Button
        size="lg"
        leftSection={<Grip size={20} aria-hidden />}
        loading={clamp.isPending}
        onClick={press}
      >
        {t('features.closedAndClamped')}
      </Button>
      <GateOutcome
        gate={clamp}
        title={t('features.clampingOfRefused', { jointName: bond.jointName })}
        goOnLabel={t('features.recordItAnyway')}
        shopId={bond.shopId}
        onGoOn={(overrides) =>
          clamp.run({ params, body: { at: (pressedAt.current ??= happenedNow()), overrides } })
        }
      />
    </>
  )
}
