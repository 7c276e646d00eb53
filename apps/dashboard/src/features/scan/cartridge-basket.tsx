import { ROUTES } from '@clampclock/contracts'
import { ActionIcon, Button } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { X } from 'lucide-react'
import { useState } from 'react'
import { stockQueries } from '../../api/queries/stock.ts'
import { useAction } from '../../api/use-action.ts'
import type { Cartridge } from '../../api/types.ts'
import { ScanField } from './scan-field.tsx'
import styles from './basket.module.css'

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
  readonly onAdd: (cartridge: Cartridge) => void
  readonly onRemove: (cartridge: Chosen) => void
}

/** Cartridges in one's arm: scanned one after the other, or found by the first letters of their code and tapped. */
export function CartridgeBasket({ shopId, label, chosen, onAdd, onRemove }: Props) {
  const [typed, setTyped] = useState('')
  const [isMakers, setIsMakers] = useState(false)
  const read = useAction(ROUTES.readScan, {
    topics: [],
    onDone: (answer) => {
      setIsMakers(answer.kind === 'product')
      if (answer.kind === 'cartridge') onAdd(answer.cartridge)
    },
  })
  const error = isMakers ? 'That is the maker’s label: scan the one with our own code.' : read.error?.message
  return (
    <div>
      <ScanField
        label={label}
        description="Our own label, or the first letters of its code."
        isPending={read.isPending}
        error={error}
        focusKey={read.submittedAt}
        onType={setTyped}
        onScan={(text) => {
          setTyped('')
          read.mutate({ params: { shopId }, body: { text } })
        }}
      />
      {typed.trim().length >= 2 && (
        <Suggestions
          shopId={shopId}
          start={typed.trim()}
          chosen={chosen}
          onChoose={(cartridge) => {
            onAdd(cartridge)
          }}
        />
      )}
      <ul className={styles['list']} aria-label="Chosen cartridges">
        {chosen.map((cartridge) => (
          <li key={cartridge.id}>
            <strong>{cartridge.code}</strong>
            <span>
              {cartridge.productName}, lot {cartridge.lotNumber}
              {cartridge.locationName !== undefined && (
                <small>{cartridge.locationName ?? 'No place given'}</small>
              )}
            </span>
            <ActionIcon
              variant="default"
              size="lg"
              aria-label={`Take ${cartridge.code} out`}
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

interface SuggestionsProps {
  readonly shopId: string
  readonly start: string
  readonly chosen: readonly Chosen[]
  readonly onChoose: (cartridge: Cartridge) => void
}

function Suggestions({ shopId, start, chosen, onChoose }: SuggestionsProps) {
  const { data } = useInfiniteQuery(stockQueries.cartridges({ shopId, code: start }, 6))
  const found = (data?.pages[0]?.items ?? []).filter(({ id }) => chosen.every((other) => other.id !== id))
  return (
    <div className={styles['matches']}>
      {found.map((cartridge) => (
        <Button key={cartridge.id} variant="default" size="sm" onClick={() => onChoose(cartridge)}>
          {cartridge.code} · {cartridge.productName}
        </Button>
      ))}
    </div>
  )
}
