import { Button, Group } from '@mantine/core'
import type { Product } from '../../../api/types.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { missingIn, type Delivery, type Line } from './delivery.ts'
import styles from './receive.module.css'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly delivery: Delivery
  readonly products: readonly Product[]
  readonly locked: ReadonlySet<string>
  readonly isSlow: boolean
  readonly onOpen: (id: string) => void
  readonly onRemove: (id: string) => void
}

/** The lots of the delivery, where there are several: one is open in the form below. */
export function DeliveryLines({ delivery, products, locked, isSlow, onOpen, onRemove }: Props) {
  const { lines, currentId } = delivery
  if (lines.length < 2 && locked.size === 0) return null
  return (
    <ul className={styles['lines']} aria-label={t('stock.lotsOfThisDelivery')}>
      {lines.map((line) => {
        const name = nameOf(line, products)
        return (
          <li key={line.id} {...(line.id === currentId ? { 'aria-current': true } : {})}>
            <span>
              <strong>{name}</strong>
              <small>
                {line.printedExpiry === ''
                  ? t('stock.noExpiryYet')
                  : t('stock.expires', { printedExpiry: line.printedExpiry })}
                {`, ${t('stock.pieces', { count: Number(line.cartridges) })}`}
              </small>
              <LineState line={line} isSent={locked.has(line.id)} isSlow={isSlow} />
            </span>
            {!locked.has(line.id) && (
              <Group gap="xs">
                {line.id !== currentId && (
                  <Button
                    size="sm"
                    variant="default"
                    onClick={() => onOpen(line.id)}
                    aria-label={t('stock.edit2', { name })}
                  >
                    {t('stock.edit')}
                  </Button>
                )}
                <Button
                  size="sm"
                  variant="default"
                  onClick={() => onRemove(line.id)}
                  aria-label={t('stock.remove2', { name })}
                >
                  {t('stock.remove')}
                </Button>
              </Group>
            )}
          </li>
        )
      })}
    </ul>
  )
}

function LineState({ line, isSent, isSlow }: { line: Line; isSent: boolean; isSlow: boolean }) {
  if (isSent)
    return isSlow ? (
      <Mark tone="warning">{t('stock.noAnswerYetBeingSentAgain')}</Mark>
    ) : (
      <Mark tone="curing">{t('stock.beingReceived')}</Mark>
    )
  if (line.refused !== null)
    return <Mark tone="danger">{line.refused.message ?? t('stock.refusedMendWhatIsMarked')}</Mark>
  const missing = missingIn(line)
  return missing === undefined ? (
    <Mark tone="ready">{t('stock.complete')}</Mark>
  ) : (
    <Mark tone="warning">{missing}</Mark>
  )
}

function nameOf({ productId, gtin, lotNumber }: Line, products: readonly Product[]): string {
  const product =
    products.find(({ id }) => id === productId)?.name ?? (gtin === '' ? t('stock.newLot') : `GTIN ${gtin}`)
  return lotNumber === '' ? product : t('stock.lot2', { product, lotNumber })
}
