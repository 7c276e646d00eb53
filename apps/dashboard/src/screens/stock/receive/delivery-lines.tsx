import { Button, Group } from '@mantine/core'
import type { Product } from '../../../api/types.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { missingIn, type Delivery, type Line } from './delivery.ts'
import styles from './receive.module.css'

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
    <ul className={styles['lines']} aria-label="Lots of this delivery">
      {lines.map((line) => {
        const name = nameOf(line, products)
        return (
          <li key={line.id} {...(line.id === currentId ? { 'aria-current': true } : {})}>
            <span>
              <strong>{name}</strong>
              <small>
                {line.printedExpiry === '' ? 'No expiry yet' : `Expires ${line.printedExpiry}`},{' '}
                {line.cartridges} {Number(line.cartridges) === 1 ? 'cartridge' : 'cartridges'}
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
                    aria-label={`Edit ${name}`}
                  >
                    Edit
                  </Button>
                )}
                <Button
                  size="sm"
                  variant="default"
                  onClick={() => onRemove(line.id)}
                  aria-label={`Remove ${name}`}
                >
                  Remove
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
      <Mark tone="warning">No answer yet: being sent again</Mark>
    ) : (
      <Mark tone="curing">Being received</Mark>
    )
  if (line.refused !== null)
    return <Mark tone="danger">{line.refused.message ?? 'Refused: mend what is marked'}</Mark>
  const missing = missingIn(line)
  return missing === undefined ? <Mark tone="ready">Complete</Mark> : <Mark tone="warning">{missing}</Mark>
}

function nameOf({ productId, gtin, lotNumber }: Line, products: readonly Product[]): string {
  const product =
    products.find(({ id }) => id === productId)?.name ?? (gtin === '' ? 'New lot' : `GTIN ${gtin}`)
  return lotNumber === '' ? product : `${product}, lot ${lotNumber}`
}
