import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import type { Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { fromWallClock, toWallClock } from '../../lib/instants.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly resources: readonly Resource[]
  readonly nowMs: number
  readonly onClose: () => void
}

const KINDS = [
  {
    value: 'out',
    get label() {
      return t('plan.aBayOrOvenFailsOrSomebodyIsAway')
    },
  },
  {
    value: 'told',
    get label() {
      return t('plan.aDelayARushJobOrAnythingElseThatIsOn')
    },
  },
]

/** What happened, and a proposal for it: what of the published plan still can stays where it is. A person accepts. */
export function EventDialog({ shop, resources, nowMs, onClose }: Props) {
  const zone = shop.timeZone
  const form = useForm({
    initialValues: {
      kind: 'out',
      resourceId: '',
      from: toWallClock(new Date(nowMs).toISOString(), zone),
      until: toWallClock(new Date(nowMs + 24 * 3_600_000).toISOString(), zone),
      note: '',
    },
    validate: {
      resourceId: (id, { kind }) => (kind === 'out' && id === '' ? t('plan.chooseWhoOrWhat') : null),
      from: (text) => faultOf(text, zone),
      until: (text) => faultOf(text, zone),
    },
  })
  const plan = useAction(ROUTES.startPlan, { topics: ['plans'], onDone: onClose })
  const propose = (reason: string) =>
    plan.mutate({ params: { shopId: shop.id }, body: { mode: 'repair', reason } })
  const away = useAction(ROUTES.addAbsence, { topics: ['shops', 'plans'] })
  const error = away.error ?? plan.error
  const others = useFormReasons(form, error)
  const submit = form.onSubmit(({ kind, resourceId, from, until, note }) => {
    if (kind === 'told') {
      propose(note)
      return
    }
    const name = resources.find(({ id }) => id === resourceId)?.name ?? ''
    const reason = `${t('plan.outOfUseOrAway', { name })}${note === '' ? '' : `: ${note}`}`
    away.mutate(
      { params: { resourceId }, body: { from: isoOf(from, zone), until: isoOf(until, zone), note } },
      { onSuccess: () => propose(reason) },
    )
  })
  const choices = resources.filter(({ kind, active }) => active && kind !== 'clampSet')
  return (
    <FormDialog
      title={t('plan.reportAChange')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('plan.proposeARepair')}
      isPending={away.isPending || plan.isPending}
      error={error}
      reasons={others}
    >
      <NativeSelect label={t('plan.what')} data={KINDS} {...form.getInputProps('kind')} />
      {form.values.kind === 'out' && (
        <>
          <NativeSelect
            label={t('plan.whoOrWhat')}
            required
            data={[
              { value: '', label: t('plan.choose') },
              ...choices.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            {...form.getInputProps('resourceId')}
          />
          <TextInput
            label={t('plan.from')}
            description={t('plan.clockOf', { name: shop.name })}
            type="datetime-local"
            required
            {...form.getInputProps('from')}
          />
          <TextInput
            label={t('plan.until')}
            type="datetime-local"
            required
            {...form.getInputProps('until')}
          />
        </>
      )}
      <TextInput
        label={t('plan.note')}
        description={t('plan.keptWithWhatThePlanChanges')}
        {...form.getInputProps('note')}
      />
    </FormDialog>
  )
}

function faultOf(text: string, zone: string): string | null {
  const read = fromWallClock(text, zone)
  return 'fault' in read ? read.fault : null
}

function isoOf(text: string, zone: string): string {
  const read = fromWallClock(text, zone)
  return 'iso' in read ? read.iso : ''
}
