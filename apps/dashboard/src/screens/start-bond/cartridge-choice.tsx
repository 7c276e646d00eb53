import { isEnoughMl } from '@clampclock/quantities'
import { Button } from '@mantine/core'
import { useState } from 'react'
import { formatVolume } from '../../lib/measures.ts'
import type { Cartridge } from '../../api/types.ts'
import { standingOf } from '../../features/stock/standing.ts'
import { formatDistance } from '../../lib/countdown.ts'
import { useNow } from '../../lib/use-now.ts'
import { CARTRIDGE_STATE } from '../../lib/words.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import styles from './start-bond.module.css'
import { t } from '../../lib/reader.ts'
import type { Scanned } from './use-scanned-cartridge.ts'

/** With what is kept of it, mL: for this joint, for others, and what is free of others. */
export interface ReservedCartridge extends Cartridge {
  readonly ownMl: number
  readonly othersMl: number
  readonly freeMl: number
}

interface Props {
  /** The most useful first. */
  readonly cartridges: readonly ReservedCartridge[]
  readonly chosen: readonly string[]
  readonly keptIds: readonly string[]
  readonly needMl: number
  /** What came of the last scan, in words. */
  readonly scanned: Scanned | undefined
  readonly onChange: (chosen: readonly string[]) => void
}

const SHOWN_AT_FIRST = 5

/** Which cartridge, or which several where one does not suffice. */
export function CartridgeChoice({ cartridges, chosen, keptIds, needMl, scanned, onChange }: Props) {
  const [showsAll, setShowsAll] = useState(false)
  const held = cartridges
    .filter(({ id }) => chosen.includes(id))
    .reduce((sum, { remainingMl }) => sum + remainingMl, 0)
  const isShort = chosen.length > 0 && !isEnoughMl(held, needMl)
  // What is chosen is in sight, however far down it stands.
  const shown = cartridges.filter(({ id }, i) => showsAll || i < SHOWN_AT_FIRST || chosen.includes(id))
  const toggle = (id: string) =>
    onChange(chosen.includes(id) ? chosen.filter((other) => other !== id) : [...chosen, id])
  return (
    <>
      <output>
        {scanned !== undefined && <Mark tone={scanned.isHere ? 'ready' : 'danger'}>{scanned.words}</Mark>}
      </output>
      {cartridges.length === 0 && (
        <Mark tone="danger">{t('start-bond.noCartridgeOfThisProductInTheShop')}</Mark>
      )}
      <div className={styles['choices']} data-open="cartridge">
        {shown.map((cartridge) => (
          <Choice
            key={cartridge.id}
            cartridge={cartridge}
            isKept={keptIds.includes(cartridge.id)}
            isChosen={chosen.includes(cartridge.id)}
            onToggle={() => toggle(cartridge.id)}
          />
        ))}
      </div>
      {cartridges.length > SHOWN_AT_FIRST && !showsAll && (
        <Button variant="subtle" mt="xs" onClick={() => setShowsAll(true)}>
          {t('start-bond.showAll', { cartridges: cartridges.length })}
        </Button>
      )}
      {isShort && (
        <p style={{ margin: '0.5rem 0 0' }}>
          <Mark tone="warning">
            {t('start-bond.chosenNeededChooseOneMore', {
              held: formatVolume(held),
              need: formatVolume(needMl, 'up'),
            })}
          </Mark>
        </p>
      )}
    </>
  )
}

interface ChoiceProps {
  readonly cartridge: ReservedCartridge
  readonly isKept: boolean
  readonly isChosen: boolean
  readonly onToggle: () => void
}

function Choice({ cartridge, isKept, isChosen, onToggle }: ChoiceProps) {
  const nowMs = useNow(60_000)
  const standing = standingOf(cartridge, nowMs)
  const expires = formatDistance(Date.parse(cartridge.effectiveExpiryAt), nowMs)
  return (
    <label className={styles['choice']}>
      <input type="checkbox" checked={isChosen} onChange={onToggle} />
      <span>
        <strong>{cartridge.code}</strong>
        <small>
          {CARTRIDGE_STATE[cartridge.state]}, {formatVolume(cartridge.remainingMl)}
          {` · ${t('start-bond.lot', { lotNumber: cartridge.lotNumber })}`}
          {cartridge.locationName !== null && ` · ${cartridge.locationName}`}
        </small>
        {isKept && (
          <small>{t('start-bond.reservedForThisJoint', { own: formatVolume(cartridge.ownMl) })}</small>
        )}
        {cartridge.othersMl > 0 && (
          <small>
            {t('start-bond.reservedForOtherJoints', { others: formatVolume(cartridge.othersMl) })}
          </small>
        )}
        {!standing.mayUse && <small>{standing.sentence}</small>}
      </span>
      <span>
        <Mark tone={standing.tone}>{standing.word}</Mark>
        {standing.mayUse && <small>{t('start-bond.expires', { expires })}</small>}
      </span>
    </label>
  )
}
