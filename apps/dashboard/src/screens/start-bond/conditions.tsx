import { NumberInput, SegmentedControl } from '@mantine/core'
import { TemperatureInput } from '../../ui/temperature-input.tsx'
import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { Step } from './step.tsx'

interface Props {
  readonly draft: Draft
  readonly unit: 'C' | 'F'
  readonly isAirFromBay: boolean
  readonly faultOf: (field: string) => string | undefined
  readonly onChange: (change: Partial<Draft>) => void
}

const SOURCES = [
  { value: 'metalProbe', label: 'Metal probe' },
  { value: 'infrared', label: 'Infrared' },
]

/** The metal at the joint, and the air round it: too cold, too warm or too damp is refused. */
export function Conditions({ draft, unit, isAirFromBay, faultOf, onChange }: Props) {
  return (
    <Step
      title="3. Metal and air"
      {...(isAirFromBay
        ? { hint: "Air and humidity are the bay thermometer's latest; change them if yours say otherwise." }
        : {})}
    >
      <div className={styles['pair']}>
        <TemperatureInput
          label="Metal at the joint"
          unit={unit}
          valueC={draft.panelC}
          error={faultOf('panel')}
          onChangeC={(panelC) => onChange({ panelC })}
        />
        <div>
          <SegmentedControl
            aria-label="Metal measured with"
            fullWidth
            mt="1.5rem"
            data={SOURCES}
            value={draft.panelSource}
            onChange={(value) => onChange({ panelSource: value as Draft['panelSource'] })}
          />
        </div>
        <TemperatureInput
          label="Thermometer, plus or minus"
          unit={unit}
          isDifference
          valueC={draft.panelAccuracyC}
          onChangeC={(panelAccuracyC) => onChange({ panelAccuracyC })}
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
      </div>
    </Step>
  )
}
