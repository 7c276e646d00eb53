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
                label="Shop"
                data={shops.map(({ id, name }) => ({ value: id, label: name }))}
                {...form.getInputProps('shopId')}
              />
              <TextInput label="Number" required maxLength={40} {...form.getInputProps('number')} />
            </>
          )}
          <TextInput
            label="Vehicle"
            description="As your people call it: model, colour"
            required
            maxLength={120}
            {...form.getInputProps('vehicle')}
          />
          <TextInput label="Plate" maxLength={20} {...form.getInputProps('plate')} />
          <TextInput
            label="VIN"
            description="Tells this car from every other in the record of its bonds"
            maxLength={17}
            autoCapitalize="characters"
            {...form.getInputProps('vin')}
          />
          <TextInput
            label="Promised for"
            description={`Clock of ${shop?.name ?? 'the shop'}; empty for none`}
            type="datetime-local"
            {...form.getInputProps('promisedAt')}
          />
          <NativeSelect
            label="Priority"
            description="What a minute late counts beside that of others, in the plan"
            data={choicesOf(PRIORITY)}
            {...form.getInputProps('priority')}
          />
          <TemperatureInput
            label="Oven limit of the vehicle"
            description="Where its maker gives one, as for battery vehicles; empty for none"
            unit={shop?.temperatureUnit ?? 'C'}
            valueC={form.values.ovenLimitC}
            error={form.errors['ovenLimitC']}
            onChangeC={(value) => form.setFieldValue('ovenLimitC', value)}
          />
          <Textarea label="Note" autosize minRows={2} {...form.getInputProps('note')} />
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
