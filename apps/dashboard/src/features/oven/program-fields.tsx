import { formatTemperature } from '@clampclock/quantities'
import { NumberInput } from '@mantine/core'
import type { ReactNode } from 'react'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import fields from '../../ui/fields/fields.module.css'
import styles from './oven.module.css'
import { USUAL_PROGRAM, type ProgramValues } from './program.ts'

interface Props {
  readonly values: ProgramValues
  readonly errors: Readonly<Record<string, ReactNode>>
  readonly unit: 'C' | 'F'
  readonly onChange: (field: keyof ProgramValues, value: number | undefined) => void
}

const DEGREES = [
  { field: 'setPointC', label: 'Air set point' },
  { field: 'airToleranceC', label: 'Air, plus or minus', isDifference: true },
  {
    field: 'rampCPerMinute',
    label: 'Air rises by, a minute',
    isDifference: true,
    hint: 'Empty: hot at once',
  },
  { field: 'airStartC', label: 'Air when it comes in' },
  { field: 'coolAirC', label: 'Air it cools down in' },
  { field: 'touchC', label: 'May be touched from' },
] as const satisfies readonly {
  field: keyof ProgramValues
  label: string
  isDifference?: boolean
  hint?: string
}[]

/** What the paint asks of the metal, and what the oven is told. Errors are by `bakeProgram.` and the field. */
export function ProgramFields({ values, errors, unit, onChange }: Props) {
  const errorOf = (field: keyof ProgramValues) => errors[`bakeProgram.${field}`]
  const usual = `${formatTemperature(USUAL_PROGRAM.metalTargetC ?? 0, unit, 0)} metal for ${USUAL_PROGRAM.dwellMinutes} min`
  return (
    <div className={styles['program']}>
      <p className={fields['soft']}>
        {usual} is common practice, no source: the sheet of the paint says what it needs. The dwell counts
        from the slowest panel at the metal target, not from the set point.
      </p>
      <div className={fields['fields']}>
        <TemperatureInput
          label="Metal target"
          unit={unit}
          required
          valueC={values.metalTargetC}
          error={errorOf('metalTargetC')}
          onChangeC={(value) => onChange('metalTargetC', value)}
        />
        <NumberInput
          label="Dwell at the target"
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
