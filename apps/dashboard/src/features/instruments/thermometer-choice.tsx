import { NativeSelect, SegmentedControl } from '@mantine/core'
import type { Instrument } from '../../api/types.ts'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import {
  calibrationFault,
  instrumentLabel,
  thermometerOf,
  thermometersOf,
  UNREGISTERED_CHOICES,
  valueOf,
  type Thermometer,
} from './thermometer.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly instruments: readonly Instrument[]
  readonly unit: 'C' | 'F'
  readonly value: Thermometer
  /** The service's word on naming none; shown until one is named. */
  readonly fault?: string | undefined
  readonly onChange: (value: Thermometer) => void
}

/** Which thermometer took the metal's temperature, and how exact it is: by the register where it stands there. */
export function ThermometerChoice({ instruments, unit, value, fault, onChange }: Props) {
  const registered = thermometersOf(instruments)
  const named = registered.find(({ id }) => id === value.instrumentId)
  const choose = (choice: string) => onChange(thermometerOf(choice, registered, value))
  return (
    <>
      {registered.length === 0 ? (
        <SegmentedControl
          aria-label={t('features.metalMeasuredWith')}
          fullWidth
          mt="1.5rem"
          data={[...UNREGISTERED_CHOICES]}
          value={value.source}
          onChange={choose}
        />
      ) : (
        <NativeSelect
          label={t('features.metalMeasuredWith')}
          value={valueOf(value)}
          error={named === undefined ? fault : calibrationFault(named)}
          data={[
            ...registered.map((instrument) => ({
              value: instrument.id,
              label: instrumentLabel(instrument, unit),
            })),
            ...UNREGISTERED_CHOICES.map((choice) => ({
              value: choice.value,
              label: t('features.notInTheRegister', { label: choice.label }),
            })),
          ]}
          onChange={(event) => choose(event.currentTarget.value)}
        />
      )}
      <TemperatureInput
        label={t('features.thermometerPlusOrMinus')}
        unit={unit}
        isDifference
        required
        disabled={named !== undefined}
        {...(named === undefined ? {} : { description: t('features.byTheRegister') })}
        valueC={value.accuracyC}
        onChangeC={(accuracyC) => onChange({ ...value, accuracyC })}
      />
    </>
  )
}
