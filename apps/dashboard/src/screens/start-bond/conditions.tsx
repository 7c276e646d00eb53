import { NativeSelect, NumberInput } from '@mantine/core'
import type { Instrument } from '../../api/types.ts'
import { calibrationFault, hygrometersOf, instrumentLabel } from '../../features/instruments/thermometer.ts'
import { ThermometerChoice } from '../../features/instruments/thermometer-choice.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { Mark } from '../../ui/answers/mark.tsx'
import type { Draft } from './application.ts'
import styles from './start-bond.module.css'
import { Step, type StepState } from './step.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly draft: Draft
  readonly state: StepState
  /** What came of the last scan of an instrument, in words. */
  readonly scanned: string | undefined
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
  state,
  scanned,
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
      title={t('start-bond.n3MetalAndAir')}
      state={state}
      hint={
        t('start-bond.readTheAirAtTheJointWithThe') +
        (isHumidityFromBay ? ` ${t('start-bond.humidityIsTheBayThermometersLatest')}` : '')
      }
    >
      <output>{scanned !== undefined && <Mark tone="ready">{scanned}</Mark>}</output>
      <div className={styles['pair']}>
        <TemperatureInput
          data-open="panel"
          label={t('start-bond.metalAtTheJoint')}
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
          data-open="air"
          label={t('start-bond.air')}
          unit={unit}
          valueC={draft.airC}
          error={faultOf('air')}
          onChangeC={(airC) => onChange({ airC })}
        />
        <NumberInput
          data-open="humidity"
          label={t('start-bond.relativeHumidity')}
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
            label={t('start-bond.humidityMeasuredWith')}
            value={draft.hygrometerId}
            error={hygrometer === undefined ? undefined : calibrationFault(hygrometer)}
            data={[
              { value: '', label: t('start-bond.noneOfTheRegister') },
              ...hygrometers.map((one) => ({ value: one.id, label: instrumentLabel(one, unit) })),
            ]}
            onChange={(event) => onChange({ hygrometerId: event.currentTarget.value })}
          />
        )}
        {hygrometer !== undefined && (
          <NativeSelect
            data-open="airReadWith"
            label={t('start-bond.airReadWith')}
            description={t('start-bond.onlyTheThermometerOfTheMetalIsBorne')}
            value={draft.airReadWith}
            error={faultOf('airReadWith')}
            data={[
              { value: '', label: t('start-bond.choose') },
              { value: 'panelThermometer', label: t('start-bond.theThermometerOfTheMetal') },
              { value: 'hygrometer', label: t('start-bond.theHygrometer') },
            ]}
            onChange={(event) => onChange({ airReadWith: event.currentTarget.value as Draft['airReadWith'] })}
          />
        )}
      </div>
    </Step>
  )
}
