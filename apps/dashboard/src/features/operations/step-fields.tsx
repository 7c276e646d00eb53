import { UNATTENDED } from '../../api/contracts.ts'
import { MultiSelect, NativeSelect, NumberInput, TextInput } from '@mantine/core'
import type { FormErrors, GetInputPropsReturnType } from '@mantine/form'
import { BAY_ATTRIBUTE, choicesOf, OPERATION, SKILL } from '../../lib/words.ts'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { ProgramFields } from '../oven/program-fields.tsx'
import styles from './step-fields.module.css'
import { asKind, type StepValues } from './step-values.ts'

/** Where the values of a step are in the form that holds them. */
export interface StepBinding {
  readonly props: (field: keyof StepValues) => GetInputPropsReturnType
  /** By field, as `bakeProgram.dwellMinutes`. */
  readonly errors: FormErrors
  readonly set: (path: string, value: unknown) => void
}

interface FormOfSteps {
  readonly errors: FormErrors
  readonly getInputProps: (path: string) => GetInputPropsReturnType
  readonly setFieldValue: (path: string, value: never) => void
}

/** @param prefix What comes before its fields: `steps.3.`; nothing where the form is of one step. */
export function bindStep(form: FormOfSteps, prefix: string): StepBinding {
  return {
    props: (field) => form.getInputProps(`${prefix}${field}`),
    errors: Object.fromEntries(
      Object.entries(form.errors).flatMap(([path, error]) =>
        path.startsWith(prefix) ? [[path.slice(prefix.length), error]] : [],
      ),
    ),
    set: (path, value) => form.setFieldValue(`${prefix}${path}`, value as never),
  }
}

interface Props {
  readonly binding: StepBinding
  readonly step: StepValues
  /** What it may become; a bond and its cure stay what they are. */
  readonly kinds: readonly StepValues['kind'][]
  readonly unit: 'C' | 'F'
  readonly onKind: (step: StepValues) => void
  /** On one vehicle, an operation stays where it is done. */
  readonly isPlaceFixed?: boolean
  /** Takes the focus when its dialog opens. */
  readonly isFirst?: boolean
}

const BAKE_BY = { minutes: 'Minutes', program: 'Oven program' } as const
const PLACE = { bay: 'Bay', oven: 'Oven' } as const

/** Everything a step has, and nothing that a step of its kind cannot have. */
export function StepFields({
  binding,
  step,
  kinds,
  unit,
  onKind,
  isPlaceFixed = false,
  isFirst = false,
}: Props) {
  const { props, errors, set } = binding
  const { kind } = step
  const isAttended = !UNATTENDED.includes(kind)
  const isByProgram = kind === 'bake' && step.bakeBy === 'program'
  return (
    <div className={styles['step']}>
      <div className={styles['fields']}>
        <TextInput
          className={styles['name']}
          label="Name"
          required
          maxLength={120}
          data-autofocus={isFirst || undefined}
          {...props('name')}
        />
        {kinds.length > 0 && (
          <NativeSelect
            className={styles['kind']}
            label="Kind"
            data={kinds.map((value) => ({ value, label: OPERATION[value] }))}
            value={kind}
            error={errors['kind']}
            onChange={(event) => onKind(asKind(step, event.currentTarget.value as StepValues['kind']))}
          />
        )}
        {kind === 'bake' && (
          <NativeSelect
            className={styles['goesBy']}
            label="Goes by"
            data={choicesOf(BAKE_BY)}
            {...props('bakeBy')}
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
            {...props('workMinutes')}
          />
        )}
        {kind !== 'bake' && !isPlaceFixed && (
          <NativeSelect
            className={styles['place']}
            label="Where"
            data={choicesOf(PLACE)}
            {...props('place')}
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
              {...props('technicians')}
            />
            <NativeSelect
              className={styles['skill']}
              label="Skill"
              data={[{ value: '', label: 'Any' }, ...choicesOf(SKILL)]}
              {...props('skill')}
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
            {...props('clampSets')}
          />
        )}
        {kind === 'bake' && !isByProgram && (
          <div className={styles['metal']}>
            <TemperatureInput
              label="Metal, at most"
              unit={unit}
              required
              valueC={step.highestMetalC ?? undefined}
              error={errors['highestMetalC']}
              onChangeC={(value) => set('highestMetalC', value ?? null)}
            />
          </div>
        )}
        <MultiSelect
          className={styles['needs']}
          label={step.place === 'oven' ? 'The oven needs' : 'The bay needs'}
          data={choicesOf(BAY_ATTRIBUTE)}
          {...props('attributes')}
        />
        {isByProgram && (
          <fieldset className={styles['program']}>
            <legend>The oven’s program</legend>
            <p>
              Worked out for each vehicle by its joints: how long it takes until the metal may be touched
              again, and how hot it gets.
            </p>
            <ProgramFields
              values={step.bakeProgram}
              errors={errors}
              unit={unit}
              onChange={(field, value) => set(`bakeProgram.${field}`, value)}
            />
          </fieldset>
        )}
      </div>
    </div>
  )
}
