import { ActionIcon, Button, Fieldset, SimpleGrid, Stack, TextInput } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { Plus, X } from 'lucide-react'
import { AnyUnitTemperature } from '../../../ui/fields/any-unit-temperature.tsx'
import { MinutesInput } from '../../../ui/fields/minutes-input.tsx'
import styles from '../products.module.css'
import { emptyPoint, type SheetValues } from './sheet-values.ts'

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
        <TextInput label="Revision" required {...form.getInputProps('revision')} />
        <TextInput label="Issued on" type="date" required {...form.getInputProps('issuedOn')} />
        <TextInput
          label="Counts from"
          description="Empty: as soon as it is approved"
          inputWrapperOrder={['label', 'input', 'description', 'error']}
          type="date"
          {...form.getInputProps('validFrom')}
        />
      </SimpleGrid>
      <Fieldset legend="Published points">
        <Stack gap="sm">
          {values.points.map((point, index) => (
            // oxlint-disable-next-line react/no-array-index-key -- points have no identity but their place in the list
            <div key={index} className={styles['pointRow']}>
              {degrees('Metal at', `points.${index}.temperatureC`, point.temperatureC)}
              {minutes('Work time', `points.${index}.workTimeMinutes`, point.workTimeMinutes)}
              {minutes('Handling', `points.${index}.handlingTimeMinutes`, point.handlingTimeMinutes)}
              {minutes('Full cure', `points.${index}.fullCureMinutes`, point.fullCureMinutes)}
              <ActionIcon
                variant="default"
                size="input-sm"
                aria-label={`Remove point ${index + 1}`}
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
              Another point
            </Button>
          </div>
        </Stack>
      </Fieldset>
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {degrees('Application, lowest', 'applicationRangeC.min', values.applicationRangeC.min)}
        {degrees('Application, highest', 'applicationRangeC.max', values.applicationRangeC.max)}
        {degrees('Cures at all from', 'lowestCureC', values.lowestCureC)}
        {degrees('Highest accelerated cure', 'highestCureC', values.highestCureC)}
        {degrees('Service range, lowest', 'serviceRangeC.min', values.serviceRangeC.min)}
        {degrees('Service range, highest', 'serviceRangeC.max', values.serviceRangeC.max)}
      </SimpleGrid>
    </Stack>
  )
}
