import { NumberInput } from '@mantine/core'
import type { ReactNode } from 'react'
import { formatTemperature } from '../../lib/measures.ts'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import fields from '../../ui/fields/fields.module.css'
import styles from './oven.module.css'
import { USUAL_PROGRAM, type ProgramValues } from './program.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly values: ProgramValues
  readonly errors: Readonly<Record<string, ReactNode>>
  readonly unit: 'C' | 'F'
  readonly onChange: (field: keyof ProgramValues, value: number | undefined) => void
}

const DEGREES = [
  {
    field: 'setPointC',
    get label() {
      return t('features.airSetPoint')
    },
  },
  {
    field: 'airToleranceC',
    get label() {
      return t('features.airPlusOrMinus')
    },
    isDifference: true,
  },
  {
    field: 'rampCPerMinute',
    get label() {
      return t('features.airRisesByAMinute')
    },
    isDifference: true,
    get hint() {
      return t('features.emptyHotAtOnce')
    },
  },
  {
    field: 'airStartC',
    get label() {
      return t('features.airWhenItComesIn')
    },
  },
  {
    field: 'coolAirC',
    get label() {
      return t('features.airItCoolsDownIn')
    },
  },
  {
    field: 'touchC',
    get label() {
      return t('features.mayBeTouchedFrom')
    },
  },
] as const satisfies readonly {
  field: keyof ProgramValues
  label: string
  isDifference?: boolean
  hint?: string
}[]

/** What the paint asks of the metal, and what the oven is told. Errors are by `bakeProgram.` and the field. */
export function ProgramFields({ values, errors, unit, onChange }: Props) {
  const errorOf = (field: keyof ProgramValues) => errors[`bakeProgram.${field}`]
  const usual = {
    metal: formatTemperature(USUAL_PROGRAM.metalTargetC ?? 0, unit, 0),
    minutes: USUAL_PROGRAM.dwellMinutes ?? 0,
  }
  return (
    <div className={styles['program']}>
      <p className={fields['soft']}>{t('features.isCommonPracticeNoSourceTheSheetOf', usual)}</p>
      <div className={fields['fields']}>
        <TemperatureInput
          label={t('features.metalTarget')}
          unit={unit}
          required
          valueC={values.metalTargetC}
          error={errorOf('metalTargetC')}
          onChangeC={(value) => onChange('metalTargetC', value)}
        />
        <NumberInput
          label={t('features.dwellAtTheTarget')}
          suffix=" min"
          inputMode="numeric"
          min={0}
          hideControls
          required
          value={values.dwellMinutes ?? ''}
          error={errorOf('dwellMinutes')}
          onChange={(value) => onChange('dwellMinutes', value === '' ? undefined : Number(value))}
        />
        {DEGREES.map(({ field, label, ...rest }) => (
          <TemperatureInput
            key={field}
            label={'hint' in rest ? `${label} (${rest.hint.toLowerCase()})` : label}
            unit={unit}
            isDifference={'isDifference' in rest}
            required={!('hint' in rest)}
            valueC={values[field]}
            error={errorOf(field)}
            onChangeC={(value) => onChange(field, value)}
          />
        ))}
      </div>
    </div>
  )
}
