import { Checkbox, NativeSelect, NumberInput, SegmentedControl, TextInput } from '@mantine/core'
import type { Product } from '../../../api/types.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import type { Line } from './delivery.ts'
import styles from './receive.module.css'

interface Props {
  readonly line: Line
  readonly products: readonly Product[]
  readonly onChange: (change: Partial<Line>) => void
}

/** The lot that is open: what a scan fills in, and a person may. */
export function LineFields({ line, products, onChange }: Props) {
  const isNewGtin = line.scanned !== null && line.scanned.product === null
  const error = (field: string) => line.refused?.byField[field]
  return (
    <>
      <NativeSelect
        label="Product"
        required
        {...(isNewGtin
          ? { description: `GTIN ${line.gtin} is new here: choose once, and it is remembered.` }
          : {})}
        data={[
          { value: '', label: 'Choose…' },
          ...products
            .filter(({ retiredAt }) => retiredAt === null)
            .map(({ id, name }) => ({ value: id, label: name })),
        ]}
        value={line.productId}
        error={error('productId')}
        onChange={(event) => onChange({ productId: event.currentTarget.value })}
      />
      {isNewGtin && (
        <NumberInput
          label="Cartridges with one scan of it"
          description="1 for a cartridge; what is in it for a carton."
          min={1}
          max={500}
          value={line.cartridgesPerScan}
          error={error('cartridgesPerScan')}
          onChange={(cartridgesPerScan) => onChange({ cartridgesPerScan })}
        />
      )}
      <TextInput
        label="Lot number"
        required
        maxLength={20}
        value={line.lotNumber}
        error={error('lotNumber')}
        onChange={(event) => onChange({ lotNumber: event.currentTarget.value })}
      />
      <SegmentedControl
        aria-label="How the expiry is printed"
        data={[
          { value: 'day', label: 'Expiry printed with a day' },
          { value: 'month', label: 'Month only' },
        ]}
        value={line.precision}
        onChange={(precision) => onChange({ precision: precision as 'day' | 'month', printedExpiry: '' })}
      />
      <TextInput
        label="Printed expiry"
        {...(line.precision === 'month' ? { description: 'The last day of the month counts.' } : {})}
        type={line.precision === 'day' ? 'date' : 'month'}
        required
        value={line.printedExpiry}
        error={error('printedExpiry')}
        onChange={(event) => onChange({ printedExpiry: event.currentTarget.value })}
      />
      <NumberInput
        label="Cartridges"
        description="Scan the same label once for each, or fill it in."
        required
        min={1}
        max={500}
        value={line.cartridges}
        error={error('cartridges')}
        onChange={(cartridges) => onChange({ cartridges })}
      />
    </>
  )
}

/** What the service asks about the lot before it is received. */
export function LineQuestions({ line, onChange }: Omit<Props, 'products'>) {
  const questions = line.scanned?.questions ?? []
  if (questions.length === 0) return null
  return (
    <fieldset className={styles['questions']}>
      <legend>Look at this first</legend>
      {questions.map(({ code, message }) => (
        <Mark key={code} tone="warning">
          {message}
        </Mark>
      ))}
      <Checkbox
        label="I have checked: receive it anyway"
        checked={line.hasLooked}
        onChange={(event) => onChange({ hasLooked: event.currentTarget.checked })}
      />
    </fieldset>
  )
}
