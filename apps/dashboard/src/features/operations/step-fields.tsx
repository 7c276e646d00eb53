import { UNATTENDED } from '../../api/contracts.ts'
import { MultiSelect, NativeSelect, NumberInput, TextInput } from '@mantine/core'
import type { FormErrors, GetInputPropsReturnType } from '@mantine/form'
import { BAY_ATTRIBUTE, choicesOf, OPERATION, SKILL } from '../../lib/words.ts'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { ProgramFields } from '../oven/program-fields.tsx'
import styles from './step-fields.module.css'
import { asKind, type StepValues } from './step-values.ts'
import { t } from '../../lib/reader.ts'

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

const BAKE_BY = {
  get minutes() {
    return t('features.minutes')
  },
  get program() {
    return t('features.ovenProgram')
  },
} as const
const PLACE = {
  get bay() {
    return t('features.bay')
  },
  get oven() {
    return t('features.oven')
  },
} as const

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
          label={t('features.name')}
          required
          maxLength={120}
          data-autofocus={isFirst || undefined}
          {...props('name')}
        />
        {kinds.length > 0 && (
          <NativeSelect
            className={styles['kind']}
            label={t('features.kind')}
            data={kinds.map((value) => ({ value, label: OPERATION[value] }))}
            value={kind}
            error={errors['kind']}
            onChange={(event) => onKind(asKind(step, event.currentTarget.value as StepValues['kind']))}
          />
        )}
        {kind === 'bake' && (
          <NativeSelect
            className={styles['goesBy']}
            label={t('features.goesBy')}
            data={choicesOf(BAKE_BY)}
            {...props('bakeBy')}
          />
        )}
        {kind !== 'cure' && !isByProgram && (
          <NumberInput
            className={styles[kind === 'bake' ? 'ofBake' : 'minutes']}
            label={t('features.minutes')}
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
            label={t('features.where')}
            data={choicesOf(PLACE)}
            {...props('place')}
          />
        )}
        {isAttended && (
          <>
            <NumberInput
              className={styles['technicians']}
              label={t('features.technicians')}
              inputMode="numeric"
              min={1}
              max={4}
              required
              {...props('technicians')}
            />
            <NativeSelect
              className={styles['skill']}
              label={t('features.skill')}
              data={[{ value: '', label: t('features.any') }, ...choicesOf(SKILL)]}
              {...props('skill')}
            />
          </>
        )}
        {kind === 'bondAndClamp' && (
          <NumberInput
            className={styles['amount']}
            label={t('features.clampSets')}
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
              label={t('features.metalAtMost')}
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
          label={step.place === 'oven' ? t('features.theOvenNeeds') : t('features.theBayNeeds')}
          data={choicesOf(BAY_ATTRIBUTE)}
          {...props('attributes')}
        />
        {isByProgram && (
          <fieldset className={styles['program']}>
            <legend>{t('features.theOvensProgram')}</legend>
            <p>{t('features.workedOutForEachVehicleByItsJoints')}</p>
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
