import { NativeSelect } from '@mantine/core'
import type { Dispenser, Resource } from '../../api/types.ts'
import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly dispensers: readonly Dispenser[]
  /** The form of the cartridge chosen: guns that take it come first. */
  readonly form: string | undefined
  readonly bays: readonly Resource[]
  readonly draft: Draft
  readonly fault: string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

export function DispenserChoice({ dispensers, form, bays, draft, fault, onChange }: Props) {
  const takes = ({ cartridgeForms }: Dispenser) => form === undefined || cartridgeForms.includes(form)
  const sorted = [...dispensers].sort((a, b) => Number(takes(b)) - Number(takes(a)))
  return (
    <div className={styles['pair']}>
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
      <NativeSelect
        label={t('start-bond.bayTheVehicleStandsIn')}
        size="md"
        value={draft.bayId}
        data={[
          { value: '', label: t('start-bond.inNoBay') },
          ...bays.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => onChange({ bayId: event.currentTarget.value })}
      />
    </div>
  )
}
