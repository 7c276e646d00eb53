import { NativeSelect, NumberInput } from '@mantine/core'
import type { Instrument } from '../../api/types.ts'
import { calibrationFault, hygrometersOf, instrumentLabel } from '../../features/instruments/thermometer.ts'
import { ThermometerChoice } from '../../features/instruments/thermometer-choice.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { Step } from './step.tsx'

interface Props {
  readonly draft: Draft
  readonly unit: 'C' | 'F'
  readonly instruments: readonly Instrument[]
  readonly isHumidityFromBay: boolean
  readonly faultOf: (field: string) => string | undefined
  readonly thermometerFault: string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

/** The metal at the joint, and the air round it: too cold, too warm or too damp is refused. */
export function Conditions({
  draft,
  unit,
  instruments,
  isHumidityFromBay,
  faultOf,
  thermometerFault,
  onChange,
}: Props) {
  const hygrometers = hygrometersOf(instruments)
  const hygrometer = hygrometers.find(({ id }) => id === draft.hygrometerId)
  return (
    <Step
      title="3. Metal and air"
      hint={
        "Read the air at the joint with the thermometer you measure the metal with, not off the bay's display: the two are compared." +
        (isHumidityFromBay
          ? " Humidity is the bay thermometer's latest; change it if yours says otherwise."
          : '')
      }
    >
      <div className={styles['pair']}>
        <TemperatureInput
          label="Metal at the joint"
          unit={unit}
          valueC={draft.panelC}
          error={faultOf('panel')}
          onChangeC={(panelC) => onChange({ panelC })}
        />
        <ThermometerChoice
          instruments={instruments}
          unit={unit}
          value={draft.thermometer}
          fault={thermometerFault}
          onChange={(thermometer) => onChange({ thermometer })}
        />
        <TemperatureInput
          label="Air"
          unit={unit}
          valueC={draft.airC}
          error={faultOf('air')}
          onChangeC={(airC) => onChange({ airC })}
        />
        <NumberInput
          label="Relative humidity"
          inputMode="decimal"
          suffix=" %"
          min={0}
          max={100}
          hideControls
          value={draft.humidityPercent ?? ''}
          error={faultOf('humidity')}
          onChange={(value) => onChange({ humidityPercent: value === '' ? undefined : Number(value) })}
        />
        {hygrometers.length > 0 && (
          <NativeSelect
            label="Humidity measured with"
            value={draft.hygrometerId}
            error={hygrometer === undefined ? undefined : calibrationFault(hygrometer)}
            data={[
              { value: '', label: 'None of the register' },
              ...hygrometers.map((one) => ({ value: one.id, label: instrumentLabel(one, unit) })),
            ]}
            onChange={(event) => onChange({ hygrometerId: event.currentTarget.value })}
          />
        )}
        {hygrometer !== undefined && (
          <NativeSelect
            label="Air read with"
            description="Only the thermometer of the metal is borne out by it"
            value={draft.airReadWith}
            error={faultOf('airReadWith')}
            data={[
              { value: '', label: 'Choose' },
              { value: 'panelThermometer', label: 'The thermometer of the metal' },
              { value: 'hygrometer', label: 'The hygrometer' },
            ]}
            onChange={(event) => onChange({ airReadWith: event.currentTarget.value as Draft['airReadWith'] })}
          />
        )}
      </div>
    </Step>
  )
}
