import { UNATTENDED } from '@clampclock/contracts'
import { MultiSelect, NativeSelect, NumberInput, TextInput } from '@mantine/core'
import type { FormErrors, UseFormReturnType } from '@mantine/form'
import { ProgramFields } from '../../features/oven/program-fields.tsx'
import { BAY_ATTRIBUTE, choicesOf, OPERATION, SKILL } from '../../lib/words.ts'
import { TemperatureInput } from '../../ui/temperature-input.tsx'
import styles from './template.module.css'
import { asKind, type StepValues } from './template-steps.ts'

export interface TemplateValues {
  name: string
  steps: StepValues[]
}

interface Props {
  readonly form: UseFormReturnType<TemplateValues>
  readonly at: number
  readonly step: StepValues
  /** What it may become; a bond and its cure stay what they are. */
  readonly kinds: readonly StepValues['kind'][]
  readonly unit: 'C' | 'F'
  readonly onKind: (step: StepValues) => void
}

const BAKE_BY = { minutes: 'Minutes', program: 'Oven program' } as const
const PLACE = { bay: 'Bay', oven: 'Oven' } as const

/** Everything a step has, and nothing that a step of its kind cannot have. */
export function StepFields({ form, at, step, kinds, unit, onKind }: Props) {
  const path = `steps.${at}`
  const { kind } = step
  const isAttended = !UNATTENDED.includes(kind)
  const isByProgram = kind === 'bake' && step.bakeBy === 'program'
  return (
    <div className={styles['fields']}>
      <TextInput
        className={styles['name']}
        label="Name"
        required
        maxLength={120}
        {...form.getInputProps(`${path}.name`)}
      />
      {kinds.length > 0 && (
        <NativeSelect
          className={styles['kind']}
          label="Kind"
          data={kinds.map((value) => ({ value, label: OPERATION[value] }))}
          value={kind}
          error={form.errors[`${path}.kind`]}
          onChange={(event) => onKind(asKind(step, event.currentTarget.value as StepValues['kind']))}
        />
      )}
      {kind === 'bake' && (
        <NativeSelect
          className={styles['goesBy']}
          label="Goes by"
          data={choicesOf(BAKE_BY)}
          {...form.getInputProps(`${path}.bakeBy`)}
        />
      )}
      {kind !== 'cure' && !isByProgram && (
        <NumberInput
          className={styles[kind === 'bake' ? 'ofBake' : 'minutes']}
          label="Minutes"
          inputMode="numeric"
          allowDecimal={false}
          allowNegative={false}
          step={5}
          required
          {...form.getInputProps(`${path}.workMinutes`)}
        />
      )}
      {kind !== 'bake' && (
        <NativeSelect
          className={styles['place']}
          label="Where"
          data={choicesOf(PLACE)}
          {...form.getInputProps(`${path}.place`)}
        />
      )}
      {isAttended && (
        <>
          <NumberInput
            className={styles['technicians']}
            label="Technicians"
            inputMode="numeric"
            min={1}
            max={4}
            required
            {...form.getInputProps(`${path}.technicians`)}
          />
          <NativeSelect
            className={styles['skill']}
            label="Skill"
            data={[{ value: '', label: 'Any' }, ...choicesOf(SKILL)]}
            {...form.getInputProps(`${path}.skill`)}
          />
        </>
      )}
      {kind === 'bondAndClamp' && (
        <NumberInput
          className={styles['amount']}
          label="Clamp sets"
          inputMode="numeric"
          min={0}
          max={500}
          required
          {...form.getInputProps(`${path}.clampSets`)}
        />
      )}
      {kind === 'bake' && !isByProgram && (
        <div className={styles['metal']}>
          <TemperatureInput
            label="Metal, at most"
            unit={unit}
            required
            valueC={step.highestMetalC ?? undefined}
            error={form.errors[`${path}.highestMetalC`]}
            onChangeC={(value) => form.setFieldValue(`${path}.highestMetalC`, value ?? null)}
          />
        </div>
      )}
      <MultiSelect
        className={styles['needs']}
        label={step.place === 'oven' ? 'The oven needs' : 'The bay needs'}
        data={choicesOf(BAY_ATTRIBUTE)}
        {...form.getInputProps(`${path}.attributes`)}
      />
      {isByProgram && (
        <fieldset className={styles['program']}>
          <legend>The oven’s program</legend>
          <p>
            Worked out for each vehicle by its joints: how long it takes until the metal may be touched again,
            and how hot it gets.
          </p>
          <ProgramFields
            values={step.bakeProgram}
            errors={errorsWithin(form.errors, `${path}.`)}
            unit={unit}
            onChange={(field, value) => form.setFieldValue(`${path}.bakeProgram.${field}`, value)}
          />
        </fieldset>
      )}
    </div>
  )
}

/** The errors of what lies under a path, by what comes after it. */
function errorsWithin(errors: FormErrors, prefix: string): FormErrors {
  return Object.fromEntries(
    Object.entries(errors).flatMap(([path, error]) =>
      path.startsWith(prefix) ? [[path.slice(prefix.length), error]] : [],
    ),
  )
}
