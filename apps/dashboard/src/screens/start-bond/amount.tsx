import { VolumeInput } from '../../ui/fields/measure-input.tsx'
import { formatVolume } from '../../lib/measures.ts'
import type { Draft } from './application.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly draft: Draft
  readonly neededMl: number
  readonly fault: string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

export function Amount({ draft, neededMl, fault, onChange }: Props) {
  return (
    <VolumeInput
      data-open="amount"
      label={t('start-bond.outOfTheCartridges')}
      description={t('start-bond.beadSkimCoatNozzleAndWasteOfThis', { needed: formatVolume(neededMl, 'up') })}
      min={0}
      max={5000}
      hideControls
      value={draft.amountMl ?? ''}
      error={fault}
      onChange={(value) => onChange({ amountMl: value === '' ? undefined : Number(value) })}
    />
  )
}
