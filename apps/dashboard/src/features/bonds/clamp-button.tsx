import { Button } from '@mantine/core'
import { Grip } from 'lucide-react'
import { useEffect, useRef, useState } from 'react'
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
  /** Where it stands over the screen of something else a slip of the thumb must clamp nothing: it is pressed twice. */
  readonly isPressedTwice?: boolean
}

/** The second press comes within so long, ms, or the first was a slip. Common practice, no source. */
const SECOND_WITHIN_MS = 8_000

/**
 * The joint is closed and under its clamps: recorded as of the press, however often it must be sent. A press is of one bond:
 * where another takes its place on the screen, what was pressed before is not its own.
 */
export function ClampButton(props: Props) {
  return <Press key={props.bond.id} {...props} />
}

function Press({ bond, isPressedTwice = false }: Props) {
  const params = { bondId: bond.id }
  const clamp = useBondGate('clampBond', { about: aboutBond(bond), topics: TOPICS, once: params })
  // The joint was closed when the button was pressed, however long it takes to write the reasons.
  const pressedAt = useRef<string>(undefined)
  const [isPressed, setPressed] = useState(false)
  useEffect(() => {
    if (!isPressed) return
    const slip = setTimeout(() => {
      pressedAt.current = undefined
      setPressed(false)
    }, SECOND_WITHIN_MS)
    return () => clearTimeout(slip)
  }, [isPressed])
  // Pressed again after silence it is the same act: the joint has been closed since the first press.
  const press = () => {
    const isFirst = pressedAt.current === undefined
    pressedAt.current ??= happenedNow()
    setPressed(isPressedTwice && isFirst)
    if (isPressedTwice && isFirst) return
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
        {isPressed
          ? t('features.pressAgainClamped', { joint: bond.jointName })
          : t('features.closedAndClamped')}
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
