import { NativeSelect } from '@mantine/core'
import type { RepairOrderDetail, Resource } from '../../api/types.ts'
import { formatInstant } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'
import { NO_BAY } from './application.ts'

interface Props {
  readonly bays: readonly Resource[]
  /** Where the vehicle comes to stand by its next booking. */
  readonly next: RepairOrderDetail['nextBay']
  readonly zone: string
  readonly value: string
  readonly fault: string | undefined
  readonly onChange: (bayId: string) => void
}

/** Where the joint cures: asked where no booking says so, since the air of the wrong bay is worse than none. */
export function BayChoice({ bays, next, zone, value, fault, onChange }: Props) {
  const first = bays.filter(({ id }) => id === next?.id)
  const sorted = [...first, ...bays.filter(({ id }) => id !== next?.id)]
  return (
    <NativeSelect
      data-open="bay"
      label={t('start-bond.bayTheVehicleStandsIn')}
      description={value === NO_BAY ? t('start-bond.noBayTellsNothing') : undefined}
      size="md"
      value={value}
      error={fault}
      data={[
        { value: '', label: t('start-bond.choose2') },
        ...sorted.map(({ id, name }) => ({
          value: id,
          label:
            next?.id === id
              ? t('start-bond.bookedFrom', { bay: name, at: formatInstant(next.from, zone) })
              : name,
        })),
        { value: NO_BAY, label: t('start-bond.inNoBay') },
      ]}
      onChange={(event) => onChange(event.currentTarget.value)}
    />
  )
}
