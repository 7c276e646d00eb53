import { Button, NativeSelect, Stack, Textarea, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { ReactNode } from 'react'
import type { RepairOrder, Shop } from '../../api/types.ts'
import { fromWallClock } from '../../lib/instants.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { choicesOf, PRIORITY } from '../../lib/words.ts'
import { Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { TemperatureInput } from '../../ui/fields/temperature-input.tsx'
import { reader, t } from '../../lib/reader.ts'

export interface RepairValues {
  shopId: string
  number: string
  vehicle: string
  /** Empty for unknown. */
  plate: string
  vin: string
  /** On the shop's wall clock; empty for none. */
  promisedAt: string
  ovenLimitC: number | undefined
  priority: RepairOrder['priority']
  note: string
}

interface Props {
  readonly shops: readonly Shop[]
  readonly initial: RepairValues
  /** Shop and number stay as they were given. */
  readonly isEdit: boolean
  readonly submitLabel: string
  readonly isPending: boolean
  readonly error: Error | null
  readonly onSubmit: (values: RepairValues, promisedAt: string | null) => void
  readonly children?: ReactNode
}

export function RepairForm({
  shops,
  initial,
  isEdit,
  submitLabel,
  isPending,
  error,
  onSubmit,
  children,
}: Props) {
  const zoneOf = (shopId: string) => shops.find(({ id }) => id === shopId)?.timeZone ?? 'utc'
  const promiseOf = ({ promisedAt, shopId }: RepairValues) =>
    promisedAt === '' ? { iso: null } : fromWallClock(promisedAt, zoneOf(shopId))
  const form = useForm<RepairValues>({
    initialValues: initial,
    validate: {
      promisedAt: (_, values) => {
        const promise = promiseOf(values)
        return 'fault' in promise ? promise.fault : null
      },
    },
  })
  const others = useFormReasons(form, error)
  const shop = shops.find(({ id }) => id === form.values.shopId)
  const submit = form.onSubmit((values) => {
    const promise = promiseOf(values)
    if ('iso' in promise) onSubmit(values, promise.iso)
  })
  return (
    <Sheet padded>
      <form onSubmit={submit}>
        <Stack gap="md">
          {!isEdit && (
            <>
              <NativeSelect
                label={t('repairs.shop')}
                data={shops.map(({ id, name }) => ({ value: id, label: name }))}
                {...form.getInputProps('shopId')}
              />
              <TextInput
                label={t('repairs.number')}
                required
                maxLength={40}
                {...form.getInputProps('number')}
              />
            </>
          )}
          <TextInput
            label={t('repairs.vehicle')}
            description={t('repairs.asYourPeopleCallItModelColour')}
            required
            maxLength={120}
            {...form.getInputProps('vehicle')}
          />
          <TextInput label={t('repairs.plate')} maxLength={20} {...form.getInputProps('plate')} />
          <TextInput
            label={t('repairs.vin')}
            description={t('repairs.tellsThisCarFromEveryOtherInThe')}
            maxLength={17}
            autoCapitalize="characters"
            {...form.getInputProps('vin')}
          />
          <TextInput
            label={t('repairs.promisedFor')}
            description={t('repairs.clockOfEmptyForNone', { name: shop?.name ?? t('repairs.theShop') })}
            type="datetime-local"
            {...form.getInputProps('promisedAt')}
          />
          <NativeSelect
            label={t('repairs.priority')}
            description={t('repairs.whatAMinuteLateCountsBesideThatOf')}
            data={choicesOf(PRIORITY)}
            {...form.getInputProps('priority')}
          />
          <TemperatureInput
            label={t('repairs.ovenLimitOfTheVehicle')}
            description={t('repairs.whereItsMakerGivesOneAsForBattery')}
            unit={reader().temperature}
            valueC={form.values.ovenLimitC}
            error={form.errors['ovenLimitC']}
            onChangeC={(value) => form.setFieldValue('ovenLimitC', value)}
          />
          <Textarea label={t('repairs.note')} autosize minRows={2} {...form.getInputProps('note')} />
          <ProblemPanel error={error} reasons={others} />
          <Button type="submit" size="md" loading={isPending}>
            {submitLabel}
          </Button>
          {children}
        </Stack>
      </form>
    </Sheet>
  )
}
