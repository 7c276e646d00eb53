import { NativeSelect } from '@mantine/core'
import type { Dispenser } from '../../api/types.ts'
import type { Draft } from './application.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly dispensers: readonly Dispenser[]
  /** The form of the cartridge chosen: guns that take it come first. */
  readonly form: string | undefined
  readonly draft: Draft
  readonly fault: string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

export function DispenserChoice({ dispensers, form, draft, fault, onChange }: Props) {
  const takes = ({ cartridgeForms }: Dispenser) => form === undefined || cartridgeForms.includes(form)
  const sorted = [...dispensers].sort((a, b) => Number(takes(b)) - Number(takes(a)))
  return (
    <NativeSelect
      data-open="dispenser"
      label={t('start-bond.dispenser')}
      size="md"
      value={draft.dispenserId}
      error={fault}
      data={[
        { value: '', label: t('start-bond.choose2') },
        ...sorted.map((dispenser) => ({
          value: dispenser.id,
          label: takes(dispenser)
            ? dispenser.name
            : t('start-bond.doesNotTake', { name: dispenser.name, form: form ?? '' }),
        })),
      ]}
      onChange={(event) => onChange({ dispenserId: event.currentTarget.value })}
    />
  )
}
