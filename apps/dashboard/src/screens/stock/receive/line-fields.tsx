import { Checkbox, NativeSelect, NumberInput, SegmentedControl, TextInput } from '@mantine/core'
import type { Product } from '../../../api/types.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { questionsOf, type Line } from './delivery.ts'
import styles from './receive.module.css'
import { t } from '../../../lib/reader.ts'

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
        label={t('stock.product')}
        required
        {...(isNewGtin
          ? { description: t('stock.gtinIsNewHereChooseOnceAndItIs', { gtin: line.gtin }) }
          : {})}
        data={[
          { value: '', label: t('stock.choose') },
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
          label={t('stock.cartridgesWithOneScanOfIt')}
          description={t('stock.n1ForACartridgeWhatIsInItForACarton')}
          min={1}
          max={500}
          value={line.cartridgesPerScan}
          error={error('cartridgesPerScan')}
          onChange={(cartridgesPerScan) => onChange({ cartridgesPerScan })}
        />
      )}
      <TextInput
        label={t('stock.lotNumber')}
        required
        maxLength={20}
        value={line.lotNumber}
        error={error('lotNumber')}
        onChange={(event) => onChange({ lotNumber: event.currentTarget.value })}
      />
      <SegmentedControl
        aria-label={t('stock.howTheExpiryIsPrinted')}
        data={[
          { value: 'day', label: t('stock.expiryPrintedWithADay') },
          { value: 'month', label: t('stock.monthOnly') },
        ]}
        value={line.precision}
        onChange={(precision) => onChange({ precision: precision as 'day' | 'month', printedExpiry: '' })}
      />
      <TextInput
        label={t('stock.printedExpiry')}
        {...(line.precision === 'month' ? { description: t('stock.theLastDayOfTheMonthCounts') } : {})}
        type={line.precision === 'day' ? 'date' : 'month'}
        required
        value={line.printedExpiry}
        error={error('printedExpiry')}
        onChange={(event) => onChange({ printedExpiry: event.currentTarget.value, hasLooked: false })}
      />
      <NumberInput
        label={t('stock.cartridges')}
        description={t('stock.scanTheSameLabelOnceForEachOrFillIt')}
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
  const questions = questionsOf(line)
  if (questions.length === 0) return null
  return (
    <fieldset className={styles['questions']}>
      <legend>{t('stock.lookAtThisFirst')}</legend>
      {questions.map(({ code, message }) => (
        <Mark key={code} tone="warning">
          {message}
        </Mark>
      ))}
      <Checkbox
        label={t('stock.iHaveCheckedReceiveItAnyway')}
        checked={line.hasLooked}
        onChange={(event) => onChange({ hasLooked: event.currentTarget.checked })}
      />
    </fieldset>
  )
}
