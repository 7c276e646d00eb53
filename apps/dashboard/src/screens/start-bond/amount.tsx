import { wholeMl } from '@clampclock/quantities'
import { NumberInput } from '@mantine/core'
import type { Draft } from './application.ts'
import { Step } from './step.tsx'

interface Props {
  readonly draft: Draft
  readonly neededMl: number
  readonly fault: string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

export function Amount({ draft, neededMl, fault, onChange }: Props) {
  return (
    <Step
      title="4. Amount"
      hint={`Bead, skim coat, nozzle and waste of this joint: ${wholeMl(neededMl)} mL.`}
    >
      <NumberInput
        label="Out of the cartridges"
        inputMode="decimal"
        suffix=" mL"
        min={0}
        max={5000}
        hideControls
        value={draft.amountMl ?? ''}
        error={fault}
        onChange={(value) => onChange({ amountMl: value === '' ? undefined : Number(value) })}
      />
    </Step>
  )
}
