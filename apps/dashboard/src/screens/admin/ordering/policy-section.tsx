import { formatMoney } from '@clampclock/quantities'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, NumberInput, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import type { ReplenishmentPolicy } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Facts } from '../../../ui/facts.tsx'
import { Section } from '../../../ui/page.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { MoneyInput } from './money-input.tsx'

export function PolicySection({ policy }: { readonly policy: ReplenishmentPolicy }) {
  const may = useMay()
  const [editing, { open, close }] = useDisclosure()
  const money = (cents: number) => formatMoney(cents, policy.currency)
  return (
    <Section title="Stock policy of the chain">
      <Facts
        facts={[
          [
            'No shortage in',
            `${(policy.serviceLevel * 100).toFixed(1)} % of the times it is ordered, at least`,
          ],
          ['The shelf is looked at', policy.reviewDays === 1 ? 'daily' : `every ${policy.reviewDays} days`],
          ['A job that waits costs', money(policy.waitingJobCents)],
          ['Keeping a cartridge for a day costs', money(policy.keepingDayCents)],
          ['Packing one for another shop costs', money(policy.packingCents)],
        ]}
      />
      {may('manageChain', null) && (
        <Button variant="default" onClick={open}>
          Change what is kept
        </Button>
      )}
      {editing && <PolicyDialog policy={policy} onClose={close} />}
    </Section>
  )
}

interface DialogProps {
  readonly policy: ReplenishmentPolicy
  readonly onClose: () => void
}

function PolicyDialog({ policy, onClose }: DialogProps) {
  const { version, ...initialValues } = policy
  const form = useForm({ initialValues })
  const edit = useAction(ROUTES.editReplenishmentPolicy, { topics: ['stock'], onDone: onClose })
  const others = useFormReasons(form, edit.error)
  const money = (name: 'waitingJobCents' | 'keepingDayCents' | 'packingCents', label: string) => (
    <MoneyInput
      label={label}
      currency={form.values.currency}
      cents={form.values[name]}
      onChange={(cents) => form.setFieldValue(name, cents)}
      error={form.errors[name]}
    />
  )
  return (
    <FormDialog
      title="Stock policy of the chain"
      onClose={onClose}
      onSubmit={form.onSubmit((body) => edit.mutate({ ifMatch: version, body }))}
      submitLabel="Save"
      isPending={edit.isPending}
      error={edit.error}
      reasons={others}
    >
      <NumberInput
        label="Service level per order cycle"
        description="0.95: at most once in twenty. Dear waiting raises it by itself."
        required
        min={0.5}
        max={0.999}
        step={0.01}
        data-autofocus
        {...form.getInputProps('serviceLevel')}
      />
      <NumberInput
        label="Review period, days"
        required
        min={1}
        max={31}
        allowDecimal={false}
        {...form.getInputProps('reviewDays')}
      />
      {money('waitingJobCents', 'A job that waits costs')}
      {money('keepingDayCents', 'Keeping a cartridge for a day costs')}
      {money('packingCents', 'Packing one for another shop costs')}
      <TextInput
        label="Currency"
        description="Code of three letters, ISO 4217"
        required
        maxLength={3}
        {...form.getInputProps('currency')}
      />
    </FormDialog>
  )
}
