import { formatNumber, formatMoney } from '../../../lib/measures.ts'
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
import { t } from '../../../lib/reader.ts'

export function PolicySection({ policy }: { readonly policy: ReplenishmentPolicy }) {
  const may = useMay()
  const [editing, { open, close }] = useDisclosure()
  const money = (cents: number) => formatMoney(cents, policy.currency)
  return (
    <Section title={t('admin.stockPolicyOfTheChain')}>
      <Facts
        facts={[
          [
            t('admin.noShortageIn'),
            t('admin.ofTheTimesItIsOrderedAtLeast', { value: formatNumber(policy.serviceLevel * 100, 1) }),
          ],
          [t('admin.theShelfIsLookedAt'), t('admin.everyDays', { reviewDays: policy.reviewDays })],
          [t('admin.aJobThatWaitsCosts'), money(policy.waitingJobCents)],
          [t('admin.keepingACartridgeForADayCosts'), money(policy.keepingDayCents)],
          [t('admin.packingOneForAnotherShopCosts'), money(policy.packingCents)],
        ]}
      />
      {may('manageChain', null) && (
        <Button variant="default" onClick={open}>
          {t('admin.changeWhatIsKept')}
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
      title={t('admin.stockPolicyOfTheChain')}
      onClose={onClose}
      onSubmit={form.onSubmit((body) => edit.mutate({ ifMatch: version, body }))}
      submitLabel={t('admin.save')}
      isPending={edit.isPending}
      error={edit.error}
      reasons={others}
    >
      <NumberInput
        label={t('admin.serviceLevelPerOrderCycle')}
        description={t('admin.n095AtMostOnceInTwentyDearWaiting')}
        required
        min={0.5}
        max={0.999}
        step={0.01}
        data-autofocus
        {...form.getInputProps('serviceLevel')}
      />
      <NumberInput
        label={t('admin.reviewPeriodDays')}
        required
        min={1}
        max={31}
        allowDecimal={false}
        {...form.getInputProps('reviewDays')}
      />
      {money('waitingJobCents', t('admin.aJobThatWaitsCosts'))}
      {money('keepingDayCents', t('admin.keepingACartridgeForADayCosts'))}
      {money('packingCents', t('admin.packingOneForAnotherShopCosts'))}
      <TextInput
        label={t('admin.currency')}
        description={t('admin.codeOfThreeLettersIso4217')}
        required
        maxLength={3}
        {...form.getInputProps('currency')}
      />
    </FormDialog>
  )
}
