import { ActionIcon, Button, Fieldset, SimpleGrid, Stack, TextInput } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { Plus, X } from 'lucide-react'
import { AnyUnitTemperature } from '../../../ui/fields/any-unit-temperature.tsx'
import { MinutesInput } from '../../../ui/fields/minutes-input.tsx'
import styles from '../products.module.css'
import { emptyPoint, type SheetValues } from './sheet-values.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly form: UseFormReturnType<SheetValues>
  readonly unit: 'C' | 'F'
}

/** The figures of a data sheet: one or more published points, and the ranges. */
export function SheetFields({ form, unit }: Props) {
  const { values, errors } = form
  const degrees = (label: string, path: string, valueC: number | undefined) => (
    <AnyUnitTemperature
      label={label}
      unit={unit}
      required
      valueC={valueC}
      error={errors[path]}
      onChangeC={(value) => form.setFieldValue(path, value as never)}
    />
  )
  const minutes = (label: string, path: string, value: number | string) => (
    <MinutesInput
      label={label}
      required
      minutes={value}
      error={errors[path]}
      onChangeMinutes={(changed) => form.setFieldValue(path, changed as never)}
    />
  )
  return (
    <Stack gap="md">
      <SimpleGrid cols={{ base: 1, xs: 3 }}>
        <TextInput label={t('products.revision')} required {...form.getInputProps('revision')} />
        <TextInput label={t('products.issuedOn')} type="date" required {...form.getInputProps('issuedOn')} />
        <TextInput
          label={t('products.countsFrom')}
          description={t('products.emptyAsSoonAsItIsApproved')}
          inputWrapperOrder={['label', 'input', 'description', 'error']}
          type="date"
          {...form.getInputProps('validFrom')}
        />
      </SimpleGrid>
      <Fieldset legend={t('products.publishedPoints')}>
        <Stack gap="sm">
          {values.points.map((point, index) => (
            // oxlint-disable-next-line react/no-array-index-key -- points have no identity but their place in the list
            <div key={index} className={styles['pointRow']}>
              {degrees(t('products.metalAt'), `points.${index}.temperatureC`, point.temperatureC)}
              {minutes(t('products.workTime'), `points.${index}.workTimeMinutes`, point.workTimeMinutes)}
              {minutes(
                t('products.handling'),
                `points.${index}.handlingTimeMinutes`,
                point.handlingTimeMinutes,
              )}
              {minutes(t('products.fullCure'), `points.${index}.fullCureMinutes`, point.fullCureMinutes)}
              <ActionIcon
                variant="default"
                size="input-sm"
                aria-label={t('products.removePoint', { index: index + 1 })}
                disabled={values.points.length === 1}
                onClick={() => form.removeListItem('points', index)}
              >
                <X size={16} aria-hidden />
              </ActionIcon>
            </div>
          ))}
          <div>
            <Button
              variant="default"
              leftSection={<Plus size={16} aria-hidden />}
              onClick={() => form.insertListItem('points', { ...emptyPoint })}
            >
              {t('products.anotherPoint')}
            </Button>
          </div>
        </Stack>
      </Fieldset>
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {degrees(t('products.applicationLowest'), 'applicationRangeC.min', values.applicationRangeC.min)}
        {degrees(t('products.applicationHighest'), 'applicationRangeC.max', values.applicationRangeC.max)}
        {degrees(t('products.curesAtAllFrom'), 'lowestCureC', values.lowestCureC)}
        {degrees(t('products.highestAcceleratedCure'), 'highestCureC', values.highestCureC)}
        {degrees(t('products.serviceRangeLowest'), 'serviceRangeC.min', values.serviceRangeC.min)}
        {degrees(t('products.serviceRangeHighest'), 'serviceRangeC.max', values.serviceRangeC.max)}
      </SimpleGrid>
    </Stack>
  )
}
