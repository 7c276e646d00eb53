import { ActionIcon, Button } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { X } from 'lucide-react'
import { useState, type ReactNode } from 'react'
import { stockQueries } from '../../api/queries/stock.ts'
import type { Cartridge } from '../../api/types.ts'
import { ScanField } from './scan-field.tsx'
import styles from './basket.module.css'
import { t } from '../../lib/reader.ts'

/** What the basket shows of a cartridge. */
interface Chosen {
  readonly id: string
  readonly code: string
  readonly productName: string
  readonly lotNumber: string
  /** Left out where the record must not be shown. */
  readonly locationName?: string | null
}

interface Props {
  readonly shopId: string
  readonly label: string
  readonly chosen: readonly Chosen[]
  readonly isPending: boolean
  readonly error?: string | undefined
  /** Change it once a scan was dealt with. */
  readonly focusKey?: unknown
  readonly onScan: (text: string) => void
  /** Found by the first letters of its code, and tapped. */
  readonly onChoose: (cartridge: Cartridge) => void
  readonly onRemove: (cartridge: Chosen) => void
  /** Between the field and the list: what became of the scans. */
  readonly children?: ReactNode
}

/** What is said to somebody who scanned the label that the maker put on. */
export function makersLabel(): string {
  return t('features.thatIsTheMakersLabel')
}

/** Cartridges in one's arm: scanned one after the other, or found by the first letters of their code and tapped. */
export function CartridgeBasket({
  shopId,
  label,
  chosen,
  isPending,
  error,
  focusKey,
  onScan,
  onChoose,
  onRemove,
  children,
}: Props) {
  const [typed, setTyped] = useState('')
  // What was typed to find a cartridge that is tapped then is done with.
  const [taps, setTaps] = useState(0)
  const start = typed.trim()
  const isSought = start.length >= 2
  const { data } = useInfiniteQuery({
    ...stockQueries.cartridges({ shopId, code: start }, 6),
    enabled: isSought,
  })
  const found = ((isSought && data?.pages[0]?.items) || []).filter(({ id }) =>
    chosen.every((other) => other.id !== id),
  )
  const choose = (cartridge: Cartridge) => {
    setTyped('')
    setTaps(taps + 1)
    onChoose(cartridge)
  }
  return (
    <div>
      <ScanField
        key={taps}
        label={label}
        description={t('features.ourOwnLabelOrTheFirstLettersOfIts')}
        isPending={isPending}
        error={error}
        focusKey={focusKey}
        onType={setTyped}
        onScan={(text) => {
          const [only, another] = text.trim() === start ? found : []
          // The first letters of one code and Enter: that cartridge is meant.
          if (only !== undefined && another === undefined) return choose(only)
          setTyped('')
          onScan(text)
        }}
      />
      {isSought && (
        <div className={styles['matches']}>
          {found.map((cartridge) => (
            <Button key={cartridge.id} variant="default" size="sm" onClick={() => choose(cartridge)}>
              {cartridge.code} · {cartridge.productName}
            </Button>
          ))}
        </div>
      )}
      {children}
      <ul className={styles['list']} aria-label={t('features.chosenCartridges')}>
        {chosen.map((cartridge) => (
          <li key={cartridge.id}>
            <strong>{cartridge.code}</strong>
            <span>
              {t('features.ofLot', { productName: cartridge.productName, lotNumber: cartridge.lotNumber })}
              {cartridge.locationName !== undefined && (
                <small>{cartridge.locationName ?? t('features.noPlaceGiven')}</small>
              )}
            </span>
            <ActionIcon
              variant="default"
              size="lg"
              aria-label={t('features.takeOut', { code: cartridge.code })}
              onClick={() => onRemove(cartridge)}
            >
              <X size={16} aria-hidden />
            </ActionIcon>
          </li>
        ))}
      </ul>
    </div>
  )
}
